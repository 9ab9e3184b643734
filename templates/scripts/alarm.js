/* How a clock makes itself heard: three tones, a shake, and a note of the system's that shows over other pages too. */
window.guidegenAlarm = (() => {
  let sound;
  // Browsers play sound only after a touch or a key, and again only after one once the page was loaded anew.
  const wake = () => {
    const Sound = window.AudioContext || window.webkitAudioContext;
    if (Sound && !sound) sound = new Sound();
    return sound && sound.state === "suspended" ? sound.resume() : Promise.resolve();
  };
  const awake = () => !!sound && sound.state === "running";
  function ring() {
    if (navigator.vibrate && navigator.userActivation && navigator.userActivation.hasBeenActive) navigator.vibrate([300, 150, 300, 150, 600]);
    if (!awake()) return;
    [0, .35, .7].forEach(after => {
      const tone = sound.createOscillator(), volume = sound.createGain(), start = sound.currentTime + after;
      tone.frequency.value = 880;
      volume.gain.setValueAtTime(.3, start);
      volume.gain.exponentialRampToValueAtTime(.001, start + .3);
      tone.connect(volume).connect(sound.destination);
      tone.start(start);
      tone.stop(start + .3);
    });
  }
  // Browsers let a page ask for leave to show notes only after a touch, and some not at all.
  const mayAsk = () => "Notification" in window && Notification.permission === "default";
  const ask = () => Promise.resolve(Notification.requestPermission()).catch(() => {});
  function note(title, tag) {
    if (!("Notification" in window) || Notification.permission !== "granted") return;
    // On phones only a service worker may show a note: the one that keeps the page offline.
    const alone = () => { try { new Notification(title, {tag}); } catch { /* the page rings all the same */ } };
    const worker = navigator.serviceWorker && location.protocol !== "file:" ? navigator.serviceWorker.getRegistration() : Promise.resolve();
    worker.then(found => found ? found.showNotification(title, {tag}) : alone()).catch(alone);
  }
  return {wake, awake, ring, mayAsk, ask, note};
})();

/* Keeps guides that were visited, or all of them where a reader asks for that, with their benches, styles, scripts and photos, for where there is no network.

   With a network every page is fetched anew, so nobody reads an old one; only what bears its content in its name comes
   from here first. A build that changes a guide has another version, and with it all that is kept is looked at again.
   Whatever else lies on the same server, other programs' pages as well, is asked for as if no worker were there. */
"use strict";

const about = "about this site";
const here = registration.scope, prefix = `guidegen ${here} `, current = prefix + about.version;
const mark = here + "?seen";
// The cache entry that is there where a reader wants every guide kept.
const all = here + "?all";
// The names of the site's own files whose name changes with their content.
const named = /^assets\/([a-z0-9-]+-[0-9a-f]{10}\.(css|js|svg|png)|photos\/[0-9a-f]{20}-\d+\.(webp|jpg)|social\/[0-9a-f]{20}\.jpg)$/;
// Files that the author has copied into the site for pages to show, by any name.
const copied = new Set(about.copied);
// What pages ask for by themselves once their reader has told of pots: kept when it first comes.
const own = url => about.own.includes(place(url)) || /^(guides|plans)\/[^/]+\/paints[^/.]*\.js$/.test(place(url));
const lasting = url => named.test(place(url)) && !copied.has(place(url));
const isPage = request => request.url.endsWith(".html");
const pagesIn = async cache => (await cache.keys()).filter(isPage).map(request => request.url);
const textOf = async (cache, url) => (await cache.match(url)).text();

function plain(address) {
  const url = new URL(address, here);
  url.hash = url.search = "";
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  return url.href;
}

// Where something lies in the site; "" for what lies elsewhere.
function place(url) {
  if (!url.startsWith(here)) return "";
  try { return decodeURIComponent(url.slice(here.length).replace(/[?#].*$/, "")); } catch (_) { return ""; }
}

// Whether it is the address of a page of the site: one of those at its top, or one in a folder that has only the site's.
function ours(url) {
  const at = place(plain(url));
  return about.pages.some(own => own.endsWith("/") ? at.startsWith(own) && /(\.html|\/[^./]*)$/.test(at) : at === own);
}

// What a page shows, but for what links lead to; of a photo's sizes and kinds, one.
function shown(text, page) {
  const tags = text.matchAll(/<(?:img|script|link)\b[^>]*?\b(?:src|href)="([^"]+\.(?:css|js|svg|png|webp|jpg))"/g);
  const own = Array.from(tags, tag => new URL(tag[1], page).href).filter(url => lasting(url) || copied.has(place(url)));
  return [...new Set(own.map(url => lasting(url) ? url.replace(/(\/assets\/photos\/[^/]+)\.jpg$/, "$1.webp") : url))];
}

async function add(cache, url) {
  if (lasting(url) && await cache.match(url)) return;
  const answer = await fetch(url);
  if (answer.ok) await cache.put(url, answer);
}

// Where a page leads on to that has moved; "" for any other.
const movedTo = text => (/<meta http-equiv="refresh" content="0; url=([^"]+)"/.exec(text) || ["", ""])[1];

// The page comes last, so that one that is kept is whole. One that leads on takes the place of what it was, beside the page
// that it leads to; else it is not worth keeping.
async function keep(cache, page) {
  const answer = await fetch(page, {cache: "no-cache"}), text = await answer.text();
  if (answer.status === 404 || answer.status === 410) await cache.delete(page);
  if (!answer.ok) return;
  const now = movedTo(text) && plain(new URL(movedTo(text), page));
  if (now && (now === page || !await cache.match(page))) return;
  if (now) await keep(cache, now);
  await Promise.all(shown(text, page).map(url => add(cache, url)));
  // Anew, for an answer that was led elsewhere cannot stand for a page.
  await cache.put(page, new Response(text, {headers: answer.headers}));
}

// Everything there is to keep, and what the list of guides is searched by.
async function everything(cache) {
  for (const file of [about.list, about.index]) {
    const answer = await fetch(here + file, {cache: "no-cache"});
    if (answer.ok) await cache.put(here + file, answer);
  }
  return (await (await cache.match(here + about.list)).json()).pages.map(plain);
}

// Once a version: every guide that is kept as it is now, and nothing that none of them shows.
async function refresh(cache, fresh) {
  if (await cache.match(mark)) return;
  const wants = await cache.match(all) ? await everything(cache) : [];
  for (const page of new Set([...await pagesIn(cache), ...wants])) if (!fresh.includes(page)) await keep(cache, page);
  const wanted = new Set();
  for (const page of await pagesIn(cache)) [page, ...shown(await textOf(cache, page), page)].forEach(url => wanted.add(url));
  for (const {url} of await cache.keys()) if (!wanted.has(url) && !own(url) && url !== all) await cache.delete(url);
  await cache.put(mark, new Response(""));
}

async function visited(addresses) {
  const cache = await caches.open(current), pages = addresses.map(plain).filter(ours);
  try {
    // A page may speak to a worker that is not yet through with that.
    await takenOver();
    for (const page of pages) await keep(cache, page);
    await refresh(cache, pages);
  } catch (_) { /* the network went, or the disk is full: what was kept stays */ }
}

// What the page with the list of all guides asks for; the answer is whether it could be done.
async function asked({keep: wanted, all: every, drop}) {
  await takenOver();
  const cache = await caches.open(current);
  try {
    for (const page of (wanted || []).map(plain).filter(ours)) await keep(cache, page);
    if (every) {
      await cache.put(all, new Response(""));
      await everything(cache);
    }
    if (drop) for (const {url} of await cache.keys()) if (url !== mark) await cache.delete(url);
  } catch (_) { return false; }
  return true;
}

// What earlier versions kept is good until it is looked at again.
async function takeOver() {
  const cache = await caches.open(current);
  for (const name of (await caches.keys()).filter(name => name.startsWith(prefix) && name !== current)) {
    const old = await caches.open(name);
    for (const request of await old.keys()) if (request.url !== mark) await cache.put(request, await old.match(request));
    await caches.delete(name);
  }
}
let taken;
const takenOver = () => taken = taken || takeOver();

async function firstFromHere(request) {
  const cache = await caches.open(current), found = await cache.match(request);
  if (found) return found;
  try { return await fetch(request); } catch (error) {
    // Of a photo any size will do.
    const photo = request.url.replace(/-\d+\.\w+$/, "-");
    const other = (await cache.keys()).find(kept => kept.url.startsWith(photo));
    if (!other) throw error;
    return cache.match(other);
  }
}

// Asking the server itself: many hosts say nothing of how long a page is good, and then browsers guess.
async function firstFromThere(request) {
  try { return await fetch(request, {cache: "no-cache"}); } catch (error) {
    const cache = await caches.open(current), found = await cache.match(plain(request.url));
    if (found) return found;
    if (request.mode !== "navigate") throw error;
    return instead(cache);
  }
}

async function keptOnUse(request) {
  const cache = await caches.open(current);
  try {
    const answer = await fetch(request, {cache: "no-cache"});
    if (answer.ok) await cache.put(request.url, answer.clone());
    return answer;
  } catch (error) {
    const found = await cache.match(request.url);
    if (!found) throw error;
    return found;
  }
}

// A page in place of one that is not kept, with the way to those that are.
async function instead(cache) {
  let list = "";
  for (const page of await pagesIn(cache)) {
    const text = await textOf(cache, page), title = /<title>([^<]*)/.exec(text);
    if (movedTo(text)) continue;
    list += `<li><a href="${page}">${title ? title[1] : ""}</a></li>`;
  }
  const page = `<!doctype html><html lang="${about.language}" dir="${about.direction}"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>${about.title}</title>
<link rel="stylesheet" href="${here}${about.style}"></head><body><main class="wide"><div class="prose"><h1>${about.title}</h1>
<p>${about.text}</p><ul>${list}</ul></div></main></body></html>`;
  const policy = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'";
  return new Response(page, {status: 503, headers: {"Content-Type": "text/html; charset=utf-8", "Content-Security-Policy": policy}});
}

addEventListener("install", () => skipWaiting());
addEventListener("activate", event => event.waitUntil(takenOver().then(() => clients.claim())));
addEventListener("message", event => {
  const {data, ports: [port]} = event;
  if (Array.isArray(data)) event.waitUntil(visited(data.map(String)));
  else if (data && port) event.waitUntil(asked(data).then(done => port.postMessage(done)));
});
addEventListener("fetch", event => {
  const {request} = event;
  if (request.method !== "GET" || request.headers.has("range")) return;
  if (own(request.url)) event.respondWith(keptOnUse(request));
  else if (lasting(request.url)) event.respondWith(firstFromHere(request));
  else if (ours(request.url) || copied.has(place(request.url))) event.respondWith(firstFromThere(request));
});

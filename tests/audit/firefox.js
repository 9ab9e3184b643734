// Firefox opens pages of a built site from the disk. node firefox.js TOOLS FIREFOX SITE GUIDE; prints what is wrong as JSON.
const { pathToFileURL } = require("node:url");
const path = require("node:path");
const [tools, firefox, site, guide] = process.argv.slice(2);
const puppeteer = require(path.join(tools, "node_modules/puppeteer-core"));
const walk = require("./walk.js");

const PAGES = ["index.html", "paints/index.html", "shelf.html", "techniques.html", "cautions.html", "404.html"];

(async () => {
  const browser = await puppeteer.launch({
    browser: "firefox", executablePath: firefox, headless: true,
    extraPrefsFirefox: { "security.fileuri.strict_origin_policy": true },
  });
  const wrong = [];
  const page = await browser.newPage();
  page.on("console", message => { if (message.type() === "error") wrong.push(message.text()); });
  page.on("pageerror", error => wrong.push(String(error)));
  const open = async name => {
    await page.goto(pathToFileURL(path.join(site, name)).href);
    (await page.evaluate(walk.whole)).forEach(what => wrong.push(`${name}: ${what}`));
  };
  for (const name of PAGES) await open(name);
  const bench = `guides/${guide}/bench.html`, home = `guides/${guide}/index.html`;
  await open(bench);
  wrong.push(...await page.evaluate(walk.tick));
  await page.reload();
  wrong.push(...await page.evaluate(walk.ticked));
  await open(home);
  wrong.push(...await page.evaluate(walk.more));
  const version = await browser.version();
  await browser.close();
  console.log(JSON.stringify({ version, wrong, pages: PAGES.length + 2 }));
})().catch(error => { console.error(error); process.exit(2); });

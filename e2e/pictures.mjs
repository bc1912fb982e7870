// Takes the README's pictures anew: SOCKWRIGHT_PAGES=folder node pictures.mjs
import { chromium } from 'playwright-core'
import path from 'node:path'
import { pathToFileURL } from 'node:url'

const folder = process.env.SOCKWRIGHT_PAGES
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
})
for (const { file, page, options, at } of [
  { file: 'slate-quay.png', page: 'slate-quay.html', options: { viewport: { width: 860, height: 1080 }, deviceScaleFactor: 1.5 } },
  { file: 'phone-dark.png', page: 'ferry-lane.html', options: { viewport: { width: 390, height: 760 }, deviceScaleFactor: 1.5, colorScheme: 'dark' }, at: '#band' },
]) {
  const context = await browser.newContext(options)
  const tab = await context.newPage()
  await tab.goto(pathToFileURL(path.resolve(folder, page)).href)
  await tab.evaluate(() => document.fonts.ready)
  if (at) await tab.evaluate((s) => document.querySelector(s).scrollIntoView(), at)
  await tab.screenshot({ path: new URL('../docs/pictures/' + file, import.meta.url).pathname })
  await context.close()
}
await browser.close()

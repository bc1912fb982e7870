// The pages of all examples in a real browser: accessible by axe-core's rules, readable on a
// phone, on paper and in the dark, and whole without a network.
//
//   SOCKWRIGHT_PAGES  folder with the pages (made by `sockwright write`)
//   SOCKWRIGHT        the program, which checks the printed pages
//   CHROMIUM          the browser; default /usr/bin/chromium
import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { after, before, test } from 'node:test'
import { pathToFileURL } from 'node:url'
import { chromium } from 'playwright-core'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const folder = process.env.SOCKWRIGHT_PAGES
const pages = readdirSync(folder).filter((name) => name.endsWith('.html'))

let browser
before(async () => {
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  })
})
after(() => browser?.close())

// open shows a page offline and fails the test if it asks for anything.
async function open(name, options, use) {
  const context = await browser.newContext({ offline: true, ...options })
  const page = await context.newPage()
  const asked = []
  page.on('request', (r) => { if (!r.url().startsWith('data:')) asked.push(r.url()) })
  await page.goto(pathToFileURL(path.resolve(folder, name)).href)
  await page.evaluate(() => document.fonts.ready)
  await use(page)
  assert.equal(asked.length, 1, `the page asks for ${asked.slice(1)}`)
  await context.close()
}

async function violations(page) {
  await page.evaluate(axe)
  const found = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }))
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(', ')}`)
}

test('there are pages', () => assert.ok(pages.length >= 3))

for (const name of pages) {
  for (const [what, options] of Object.entries({
    'phone, light': { viewport: { width: 360, height: 740 }, colorScheme: 'light' },
    'phone, dark': { viewport: { width: 360, height: 740 }, colorScheme: 'dark' },
    'desktop, light': { viewport: { width: 1280, height: 900 }, colorScheme: 'light' },
    'desktop, dark': { viewport: { width: 1280, height: 900 }, colorScheme: 'dark' },
    'desktop, forced colors': { viewport: { width: 1280, height: 900 }, forcedColors: 'active' },
  })) {
    test(`${name}: ${what}`, () => open(name, options, async (page) => {
      assert.deepEqual(await violations(page), [])
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
      assert.equal(wide, 0, 'the page is wider than the window')
      const faces = await page.evaluate(() => [...document.fonts].filter((f) => f.status === 'loaded').map((f) => f.family.replaceAll('"', '')))
      assert.ok(faces.includes('Source Serif 4') && faces.includes('Source Sans 3'), `faces loaded: ${faces}`)
    }))
  }

  test(`${name}: headings, links and keyboard`, () => open(name, {}, async (page) => {
    const levels = await page.evaluate(() => [...document.querySelectorAll('h1,h2,h3')].map((h) => +h.tagName[1]))
    assert.deepEqual(levels.filter((l) => l === 1), [1])
    assert.ok(levels.every((l, i) => i === 0 || l - levels[i - 1] <= 1), `levels ${levels}`)
    const dead = await page.evaluate(() => [...document.querySelectorAll('a[href^="#"]')].filter((a) => !document.getElementById(a.hash.slice(1))).length)
    assert.equal(dead, 0)
    const first = await page.evaluate(() => document.querySelector('nav a').textContent)
    await page.keyboard.press('Tab')
    assert.equal(await page.evaluate(() => document.activeElement.textContent), first)
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle)
    assert.equal(outline, 'solid')
  }))

  test(`${name}: on paper`, () => open(name, {}, async (page) => {
    await page.emulateMedia({ media: 'print' })
    assert.deepEqual(await violations(page), [])
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: false })
    const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g).length
    assert.ok(sheets >= 2 && sheets <= 10, `${sheets} sheets`)
    const printed = path.join(folder, name.replace(/html$/, 'pdf'))
    writeFileSync(printed, pdf)
    const checked = spawnSync(process.env.SOCKWRIGHT, ['check', printed], { encoding: 'utf8' })
    assert.equal(checked.status, 0, checked.stdout + checked.stderr)
    assert.match(checked.stdout, /no fault/)
  }))
}

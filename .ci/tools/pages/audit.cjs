// What every page for phones is held to, on a small and a large phone, with text
// twice as large, dark and bright: axe-core's rules, targets for a thumb, no overflow.
const fs = require('fs')
const path = require('path')
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8')

// pictures are for somebody who looks: taking three is a sixth of the work of an audit.
const pictures = Boolean(process.env.RILLKEY_SHOTS)

const sizes = { small: { width: 360, height: 640 }, large: { width: 412, height: 915 } }

// tooSmall runs in the page: what cannot be hit with a thumb, and what is too wide.
function tooSmall() {
  const out = []
  for (const e of document.querySelectorAll('button, select, input, a')) {
    const box = e.getBoundingClientRect()
    const around = e.closest('label') ? e.closest('label').getBoundingClientRect() : box
    if (box.width && (Math.max(box.height, around.height) < 44 || Math.max(box.width, around.width) < 44)) out.push(`target of ${Math.round(box.width)} x ${Math.round(box.height)}: ${e.textContent || e.name}`)
  }
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth
  if (wide > 0) out.push(`${wide} px too wide`)
  return out
}

// Checks looks at pages and gathers what is wrong; screenshots go to folder.
class Checks {
  constructor(folder) {
    this.folder = folder
    this.faults = []
    this.remarks = []
  }

  fault(words) { this.faults.push(words) }

  // watched is a page whose errors are faults.
  async watched(browser, label) {
    const page = await browser.newPage()
    await page.setViewport(sizes.small)
    page.on('pageerror', (e) => this.fault(`${label}: ${e.message}`))
    page.on('console', (m) => { if (m.type() === 'error' && !/ERR_|Failed to load/.test(m.text())) this.fault(`${label}: ${m.text()}`) })
    return page
  }

  async audit(page, name) {
    for (const [size, viewport] of Object.entries(sizes)) {
      await page.setViewport(viewport)
      if (pictures) await page.screenshot({ path: path.join(this.folder, `table-${name}-${size}.png`) })
      for (const f of await page.evaluate(tooSmall)) this.fault(`${name}, ${size}: ${f}`)
    }
    await page.setViewport(sizes.small)
    await page.evaluate(() => { document.documentElement.style.fontSize = '200%' })
    for (const f of await page.evaluate(tooSmall)) this.fault(`${name}, 200 % text: ${f}`)
    await page.evaluate(() => { document.documentElement.style.fontSize = '' })
    if (!(await page.evaluate(() => typeof axe === 'object'))) await page.evaluate(axe)
    for (const scheme of ['dark', 'light']) {
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }])
      if (pictures && scheme === 'dark') await page.screenshot({ path: path.join(this.folder, `table-${name}-dark.png`) })
      const only = scheme === 'dark' ? { runOnly: ['color-contrast'] } : {}
      const found = await page.evaluate((only) => axe.run(document, { resultTypes: ['violations'], ...only }), only)
      for (const v of found.violations) {
        const words = `${name}, ${scheme}: ${v.impact} ${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 120)}`
        if (['serious', 'critical'].includes(v.impact)) this.fault(words)
        else this.remarks.push(words)
      }
    }
  }
}

const says = (page, words, timeout = 30000) => page.waitForFunction((w) => document.body.innerText.includes(w), { timeout, polling: 50 }, words)
// press presses the first button whose value begins so.
const press = async (page, value) => {
  await page.waitForSelector(`button[value^="${value}"]`)
  await page.evaluate((v) => document.querySelector(`button[value^="${v}"]`).click(), value)
}

module.exports = { Checks, says, press, sizes }

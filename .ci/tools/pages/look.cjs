// look.cjs CHROMIUM FOLDER PAGE.html…: opens each page as a person does, on a
// desk, on a phone and on paper, and prints what was seen as JSON: one object a
// page with the sheets it takes and a list of faults. PDFs go to FOLDER, and pictures
// where RILLKEY_SHOTS is set.
const fs = require('fs')
const path = require('path')
const { pathToFileURL } = require('url')
const puppeteer = require('puppeteer-core')
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8')

const mm = 96 / 25.4
const ways = [
  { name: 'desk', width: 1280, height: 900 },
  { name: 'phone', width: 390, height: 844 },
  { name: 'small phone', width: 320, height: 640 },
  { name: 'A4', sheet: 'a4', media: 'print', width: 210 * mm, height: 297 * mm },
  { name: 'Letter', sheet: 'letter', media: 'print', width: 215.9 * mm, height: 279.4 * mm },
]

// pageMargins runs in the page: the margins that its last @page sets, in px.
function pageMargins() {
  let found = [0, 0, 0, 0]
  const probe = document.body.appendChild(document.createElement('div'))
  for (const sheet of document.styleSheets) {
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof CSSPageRule) || !rule.style.marginTop) continue
      probe.style.margin = rule.style.margin
      const s = getComputedStyle(probe)
      found = [s.marginTop, s.marginRight, s.marginBottom, s.marginLeft].map(parseFloat)
    }
  }
  probe.remove()
  return found
}

// overflowing runs in the page: what reaches beyond the page's width, what is
// cut off by its own box, what is kept whole but is higher than a sheet, and
// labels of leads in two lines.
function overflowing(sheetHeight) {
  const faults = []
  const wide = document.documentElement.clientWidth + 1 // a sheet's width is no whole number of px
  const called = (e) => {
    const words = (e.textContent || '').trim().replace(/\s+/g, ' ').slice(0, 50)
    return `${e.tagName.toLowerCase()}${e.className && e.className.baseVal === undefined ? '.' + e.className : ''} "${words}"`
  }
  const scrolls = (e) => {
    for (let up = e.parentElement; up; up = up.parentElement) {
      if (['auto', 'scroll'].includes(getComputedStyle(up).overflowX)) return true
    }
    return false
  }
  if (document.documentElement.scrollWidth > wide) {
    faults.push(`the page is ${document.documentElement.scrollWidth} px wide, there are ${wide}`)
  }
  for (const e of document.body.querySelectorAll('*:not(svg *), svg text')) {
    const box = e.getBoundingClientRect()
    const style = getComputedStyle(e)
    if (!box.width || style.visibility === 'hidden') continue
    if (e.tagName === 'text' && e.ownerSVGElement) {
      const svg = e.ownerSVGElement.getBoundingClientRect()
      if (box.left < svg.left - 1 || box.right > svg.right + 1 || box.top < svg.top - 1 || box.bottom > svg.bottom + 1) {
        faults.push(`text outside its drawing: ${called(e)}`)
      }
      continue
    }
    if (box.right > wide + 1 && !scrolls(e)) faults.push(`beyond the right edge: ${called(e)}`)
    const hides = ['hidden', 'clip'].includes(style.overflowX) && style.position !== 'absolute'
    if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0 && style.display !== 'inline' && hides) {
      faults.push(`cut off by its own box: ${called(e)}`)
    }
    if (sheetHeight && style.breakInside === 'avoid' && box.height > sheetHeight) {
      faults.push(`kept whole but higher than a sheet: ${called(e)}`)
    }
    if (sheetHeight && scrolls(e) && box.right > wide + 1) faults.push(`out of sight on paper: ${called(e)}`)
  }
  for (const e of document.body.querySelectorAll('.letter')) {
    const words = document.createRange()
    words.selectNodeContents(e)
    if (new Set([...words.getClientRects()].map((line) => line.top)).size > 1) faults.push(`a lead's label is broken: ${called(e)}`)
  }
  return [...new Set(faults)].slice(0, 20)
}

// overlapping runs in the page: texts of one drawing that lie on each other.
function overlapping() {
  const faults = []
  for (const svg of document.querySelectorAll('svg')) {
    const boxes = [...svg.querySelectorAll('text')].map((t) => [t.textContent, t.getBoundingClientRect()]).filter(([, b]) => b.width > 0)
    for (let i = 0; i < boxes.length; i++) {
      for (let j = i + 1; j < boxes.length; j++) {
        const [a, b] = [boxes[i][1], boxes[j][1]]
        const x = Math.min(a.right, b.right) - Math.max(a.left, b.left)
        const y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
        if (x > 1 && y > 0.3 * Math.min(a.height, b.height)) faults.push(`texts lie on each other: "${boxes[i][0]}" and "${boxes[j][0]}"`)
      }
    }
  }
  return faults.slice(0, 20)
}

// smallest runs in the page: its smallest letters, in points, and what they say.
function smallest() {
  let least = { pt: 1000, words: '' }
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    const e = n.parentElement
    if (!n.data.trim() || e.closest('title, desc, style, script')) continue
    const range = document.createRange()
    range.selectNodeContents(n)
    if (!range.getBoundingClientRect().width) continue
    const scale = e.ownerSVGElement ? Math.abs(e.getScreenCTM().a) : 1
    const pt = parseFloat(getComputedStyle(e).fontSize) * scale * 0.75
    if (pt < least.pt) least = { pt, words: n.data.trim().slice(0, 40) }
  }
  return least
}

// bareDrawings runs in the page: drawings have the role of an image, so their
// name is what the audit is about; their thousands of lines only hold it up.
function bareDrawings() {
  for (const svg of document.querySelectorAll('svg[role=img]')) {
    for (const part of [...svg.children]) if (!['title', 'desc'].includes(part.tagName)) part.remove()
  }
}

async function look(browser, folder, file) {
  const name = path.basename(file, '.html')
  const seen = { page: name, sheets: {}, faults: [], remarks: [] }
  const page = await browser.newPage()
  await page.setBypassCSP(true)
  page.on('console', (m) => seen.faults.push(`console: ${m.text()}`))
  page.on('request', (r) => { if (!r.url().startsWith('file:')) seen.faults.push(`asks the network for ${r.url()}`) })
  await page.goto(pathToFileURL(path.resolve(file)).href, { waitUntil: 'load', timeout: 120000 })
  const margins = await page.evaluate(pageMargins)
  for (const way of ways) {
    const say = (words) => seen.faults.push(`${way.name}: ${words}`)
    await page.emulateMediaType(way.media || 'screen')
    const [top, right, bottom, left] = way.sheet ? margins : [0, 0, 0, 0]
    const [width, height] = [Math.floor(way.width - left - right), Math.floor(way.height - top - bottom)]
    await page.setViewport({ width, height })
    for (const f of await page.evaluate(overflowing, way.sheet ? height : 0)) say(f)
    if (way.name === 'desk' || way.name === 'A4') for (const f of await page.evaluate(overlapping)) say(f)
    if (process.env.RILLKEY_SHOTS) await page.screenshot({ path: path.join(folder, `${name}-${way.name.replace(' ', '-')}.png`) })
    if (way.sheet) {
      seen.smallest = await page.evaluate(smallest)
      const pdf = Buffer.from(await page.pdf({ format: way.sheet, printBackground: false, timeout: 120000 }))
      fs.writeFileSync(path.join(folder, `${name}-${way.sheet}.pdf`), pdf)
      seen.sheets[way.sheet] = (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) || []).length
    }
  }
  await page.evaluate(bareDrawings)
  await page.evaluate(axe)
  for (const way of ways.slice(0, 2)) {
    await page.emulateMediaType('screen')
    await page.setViewport({ width: way.width, height: way.height })
    // Of the rules only these hang on the width; all of them take long.
    const only = way.name === 'desk' ? {} : { runOnly: ['scrollable-region-focusable', 'target-size'] }
    const found = await page.evaluate((only) => axe.run(document, { resultTypes: ['violations'], ...only }), only)
    for (const v of found.violations) {
      const words = `${way.name}: ${v.impact} ${v.id}: ${v.help}: ${v.nodes.length} places, first ${v.nodes[0].html.slice(0, 120)}`
      seen[['serious', 'critical'].includes(v.impact) ? 'faults' : 'remarks'].push(words)
    }
  }
  if (await page.$('meta[name=color-scheme]')) {
    await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: 'dark' }])
    if (process.env.RILLKEY_SHOTS) await page.screenshot({ path: path.join(folder, `${name}-dark.png`) })
    const found = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'], runOnly: ['color-contrast'] }))
    for (const v of found.violations) seen.faults.push(`dark: ${v.help}: ${v.nodes.length} places, first ${v.nodes[0].html.slice(0, 120)}`)
  }
  await page.close()
  return seen
}

async function main([chromium, folder, ...files]) {
  const args = ['--disable-gpu', '--disable-dev-shm-usage', ...(process.getuid && process.getuid() === 0 ? ['--no-sandbox'] : [])]
  const all = []
  const places = files.keys()
  // Two browsers share the pages: a page behind another is not painted.
  const worker = async () => {
    const browser = await puppeteer.launch({ executablePath: chromium, args, protocolTimeout: 180000 })
    try {
      for (let p = places.next(); !p.done; p = places.next()) all[p.value] = await look(browser, folder, files[p.value])
    } finally {
      await browser.close()
    }
  }
  await Promise.all([worker(), worker()])
  console.log(JSON.stringify(all, null, 1))
}

main(process.argv.slice(2)).catch((error) => {
  console.error(error)
  process.exit(1)
})

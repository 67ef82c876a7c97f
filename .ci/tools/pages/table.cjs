// table.cjs CHROMIUM FOLDER PROGRAM VISIT PORT PAGE: a phone at a sorting table, and the
// file PAGE on a phone without one, as a person uses it: joins, counts, goes out of
// reach, is closed and opened, while the table is killed. Prints what was seen as JSON:
// faults, remarks, times in ms, and how many animals were counted. Screenshots go to
// FOLDER.
const path = require('path')
const { spawn } = require('child_process')
const puppeteer = require('puppeteer-core')
const { Checks, says, press } = require('./audit.cjs')
const { alone } = require('./alone.cjs')
const { full } = require('./full.cjs')
const { plain } = require('./plain.cjs')

const [chromium, folder, program, visit, port, file] = process.argv.slice(2)
const checks = new Checks(folder)
const fault = (words) => checks.fault(words)
const watched = (browser, label) => checks.watched(browser, label)
const audit = (page, name) => checks.audit(page, name)
const seen = { times: {}, animals: 0 }

// table begins the table and gives what it says of itself.
function table() {
  const server = spawn(program, ['table', '--json', '--visit', visit, '--port', port], { stdio: ['ignore', 'pipe', 'pipe'] })
  return new Promise((resolve, reject) => {
    let said = ''
    server.stdout.on('data', (d) => {
      said += d
      try { resolve({ server, told: JSON.parse(said) }) } catch (more) { /* not all of it yet */ }
    })
    server.stderr.on('data', (d) => checks.remarks.push(String(d)))
    server.on('exit', (code) => reject(new Error(`the table ended with ${code}: ${said}`)))
  })
}

const atTable = (page) => page.waitForFunction(() => rillkey.waiting() === 'All at the table.', { timeout: 30000, polling: 50 })
// more presses the first "+n" on the page.
const more = async (page, n) => {
  await page.evaluate((n) => [...document.querySelectorAll('button.plus')].find((b) => b.textContent === `+${n}`).click(), n)
  seen.animals += n
}

async function sit(browser, told, again) {
  const link = told.link
  const page = await watched(browser, 'page')
  const begun = Date.now()
  await page.goto(link, { waitUntil: 'load', timeout: 60000 })
  await says(page, 'Join the table', 60000)
  seen.times.start = Date.now() - begun
  await audit(page, 'join')
  await page.type('input[name=name]', 'Ada')
  await page.keyboard.press('Enter')
  await says(page, 'Known at sight')
  await audit(page, 'count')
  await more(page, 1)
  await atTable(page)
  for (const [name, does] of [['samples', 'go:sample'], ['tally', 'go:tally'], ['grade', 'go:grade'], ['board', 'go:board'], ['give', 'go:hand'], ['name', 'name']]) {
    if (name === 'name') await press(page, 'go:count')
    await press(page, does)
    if (name === 'name') await page.waitForSelector('.lead svg')
    await audit(page, name)
  }
  await press(page, 'drop')
  await keyboard(page)
  await outOfReach(page, link)
  await again(page)
  await twoWindows(browser, page, link)
  await refused(browser, link)
  await slowed(browser, link)
  seen.animals += await full(checks, browser, link)
  seen.animals += await plain(checks, browser, told)
  await alone(checks, browser, file)
}

// keyboard counts one animal with keys alone.
async function keyboard(page) {
  await page.evaluate(() => { document.activeElement.blur(); window.scrollTo(0, 0) })
  for (let i = 0; i < 40; i++) {
    await page.keyboard.press('Tab')
    if (await page.evaluate(() => document.activeElement.textContent === '+1')) break
  }
  await page.keyboard.press('Enter')
  seen.animals += 1
  await says(page, '1 more')
  if (!(await page.evaluate(() => document.activeElement !== document.body))) checks.remarks.push('the focus is lost after a press')
  await atTable(page)
}

// outOfReach counts without a network, with the page closed and opened meanwhile.
async function outOfReach(page, link) {
  await page.setOfflineMode(true)
  await more(page, 1)
  await says(page, 'Kept on this phone. 1 not yet at the table. Out of its reach')
  if (process.env.RILLKEY_SHOTS) await page.screenshot({ path: path.join(folder, 'table-offline.png') })
  try {
    await page.goto('about:blank')
    await page.goto(link, { waitUntil: 'load', timeout: 60000 })
    await says(page, 'Known at sight', 60000)
    await says(page, `, ${seen.animals} animals`)
    // The browser lets a request through before a page that it opens is cut off, so
    // one or two may wait.
    await more(page, 1)
    await says(page, 'not yet at the table')
    await says(page, `, ${seen.animals} animals`)
  } catch (err) { fault(`it does not open out of reach: ${err.message}; it says: ${await page.evaluate(() => document.body.innerText.replace(/\s+/g, ' ').slice(0, 400))}`) }
  await page.setOfflineMode(false)
  await atTable(page)
}

// twoWindows counts in two windows of one browser.
async function twoWindows(browser, page, link) {
  const other = await watched(browser, 'other window')
  await other.goto(link)
  await says(other, 'Known at sight', 60000)
  await more(other, 1)
  await atTable(other)
  await page.bringToFront()
  await more(page, 1)
  await atTable(page)
  await other.close()
}

// refused opens the page where the browser keeps nothing.
async function refused(browser, link) {
  const page = await watched(await browser.createBrowserContext(), 'private window')
  await page.evaluateOnNewDocument(() => { IDBFactory.prototype.open = () => { throw new Error('not here') } })
  await page.goto(link)
  await says(page, 'Join the table', 60000)
  await page.type('input[name=name]', 'Bo')
  await press(page, 'join')
  await says(page, 'Known at sight')
  await more(page, 5)
  await says(page, 'NOT kept on this phone')
  await atTable(page)
  await page.close()
}

// slowed measures a phone whose processor is four times as slow as this one.
async function slowed(browser, link) {
  const page = await watched(await browser.createBrowserContext(), 'slow phone')
  await page.emulateCPUThrottling(4)
  let begun = Date.now()
  await page.goto(link)
  await says(page, 'Join the table', 60000)
  seen.times.slowStart = Date.now() - begun
  await page.type('input[name=name]', 'Cy')
  begun = Date.now()
  await press(page, 'join')
  await says(page, 'Known at sight')
  await press(page, 'name')
  await page.waitForSelector('.lead', { timeout: 60000 })
  seen.times.slowFirstQuestion = seen.times.slowStart + Date.now() - begun
  // Whatever is pressed, the words are there before the drawings.
  const presses = ['answer:?', 'answer:?', 'answer:<', 'answer:?', 'answer:?', 'answer:?', 'answer:s', 'again', 'answer:<', 'answer:s',
    'keep', 'go:tally', 'go:grade', 'go:board', 'go:hand', 'go:count', 'more:row-3:1', 'find']
  const took = []
  for (const value of presses) {
    took.push(await page.evaluate((value) => {
      const button = document.querySelector(`button[value="${value}"]`) || document.querySelector('.lead')
      if (!button) return 0
      const from = performance.now()
      button.click()
      return document.body.offsetHeight && performance.now() - from
    }, value))
    await page.waitForFunction(() => !document.querySelector('[data-figure]:empty'), { timeout: 60000 }) // as somebody who looks at them
  }
  seen.animals += 2
  await atTable(page)
  seen.times.slowAnswer = Math.round(Math.max(...took))
  seen.times[`slow ${presses[took.indexOf(Math.max(...took))]}`] = seen.times.slowAnswer
  await page.close()
}

async function main() {
  let { server, told } = await table()
  const args = ['--disable-gpu', '--disable-dev-shm-usage', ...(process.getuid && process.getuid() === 0 ? ['--no-sandbox'] : [])]
  let browser
  try { // the table ends with it, also where no browser begins
    browser = await puppeteer.launch({ executablePath: chromium, args, protocolTimeout: 180000 })
    await sit(browser, told, async (page) => {
      server.removeAllListeners('exit')
      server.kill('SIGKILL')
      await more(page, 5)
      await says(page, 'not yet at the table')
      ;({ server, told } = await table())
      await atTable(page)
    })
  } finally {
    server.removeAllListeners('exit')
    server.kill('SIGTERM')
    await browser?.close()
  }
}

main().catch((error) => fault(error.stack)).finally(() => {
  console.log(JSON.stringify({ ...seen, faults: checks.faults, remarks: checks.remarks }, null, 1))
})

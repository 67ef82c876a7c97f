// The plain pages of a table, which run no script: their content policy has none.
const { says, press } = require('./audit.cjs')

async function plain(checks, browser, told) {
  const page = await checks.watched(await browser.createBrowserContext(), 'plain page')
  const home = new URL('/plain', told.link).href
  await page.goto(home)
  await checks.audit(page, 'plain-join')
  await page.type('input[name=name]', 'Di')
  await page.type('input[name=code]', told.leader_code)
  await pressed(page, 'join')
  await checks.audit(page, 'plain-count')
  await pressed(page, 'more:row-0:5')
  for (const [name, does] of [['samples', 'go:sample'], ['grade', 'go:grade'], ['board', 'go:board'], ['give', 'go:hand'], ['tally', 'go:tally'], ['entry', 'entry:'], ['name', 'name']]) {
    if (name === 'name') await pressed(page, 'go:count')
    await pressed(page, does)
    await checks.audit(page, 'plain-' + name)
  }
  if (!(await page.$('.lead svg'))) checks.fault('a plain page has no drawings')
  await keyboard(checks, page)
  await page.goto(new URL('/board', told.link).href)
  await says(page, "Phones at the table")
  await checks.audit(page, 'board-screen')
  await page.close()
  return 5
}

// pressed presses a button and waits for the page that comes.
async function pressed(page, value) {
  await Promise.all([page.waitForNavigation(), press(page, value)])
}

// keyboard goes to an answer and takes it with keys alone.
async function keyboard(checks, page) {
  const before = await page.evaluate(() => document.querySelector('h1').innerText)
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab')
    if (await page.evaluate(() => document.activeElement.value === 'answer:?' || document.activeElement.value === 'drop')) break
  }
  await Promise.all([page.waitForNavigation(), page.keyboard.press('Enter')])
  const after = await page.evaluate(() => document.querySelector('h1').innerText)
  if (before === after) checks.fault('keys alone do not answer a question of a plain page')
}

module.exports = { plain }

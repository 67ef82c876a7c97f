// A page that was opened from a file, without any table: what a group of two does
// with one phone.
const fs = require('fs')
const path = require('path')
const { says, press } = require('./audit.cjs')

// named answers a few questions and sets the animal aside.
async function named(page) {
  await press(page, 'name')
  await page.waitForSelector('.lead')
  for (let i = 0; i < 40 && !(await page.$('button[value=keep]')); i++) {
    await page.evaluate((stop) => {
      const all = [...document.querySelectorAll('button[value^="answer:"]')]
      const one = all.find((b) => b.value === (stop ? 'answer:s' : 'answer:?')) || all.pop()
      one.click()
    }, i > 3)
  }
}

async function alone(checks, browser, file) {
  const context = await browser.createBrowserContext()
  const page = await checks.watched(context, 'page from a file')
  const whole = await browser.target().createCDPSession()
  await whole.send('Browser.setDownloadBehavior', { behavior: 'allow', downloadPath: checks.folder, browserContextId: context.id })
  await page.goto('file://' + file)
  await says(page, 'Begin a visit', 60000)
  await checks.audit(page, 'begin')
  await practised(checks, page)
  await page.click('input[name=read]')
  await page.type('input[name=site]', 'Tanyard Brook')
  await page.type('input[name=people]', 'Ada')
  await press(page, 'begin')
  await says(page, 'Known at sight')
  await thumb(checks, page)
  await twice(checks, page)
  await named(page)
  await checks.audit(page, 'named')
  await page.evaluate(() => { document.querySelector('input[name=cell]').value = 'C3' })
  await press(page, 'keep')
  await meanwhile(checks, page)
  await secondLook(checks, page)
  await slip(checks, page)
  await handedOver(checks, page)
}

// practised meets an animal in practice, by the keyboard alone: names it, reads what it
// was, and walks with the key for the next one.
async function practised(checks, page) {
  await page.type('input[name=learner]', 'Robin')
  await page.keyboard.press('Enter')
  await says(page, 'What is it?')
  await page.waitForSelector('.large svg')
  await checks.audit(page, 'practise')
  await keyed(checks, page, (e) => e.name === 'sight')
  await page.keyboard.type('golden stonefly')
  await page.keyboard.press('Enter')
  await page.waitForSelector('button[value="sign:"]')
  await checks.audit(page, 'practise-told')
  await keyed(checks, page, (e) => e.value === 'sign:')
  await page.keyboard.press('Enter')
  await says(page, 'What is it?')
  await press(page, 'sign:k')
  await page.waitForSelector('button[value="sign:a"]')
  await checks.audit(page, 'practise-key')
  await keyed(checks, page, (e) => e.value === 'sign:a')
  await page.keyboard.press('Enter')
  await press(page, 'sign:q')
  if (await page.$('button[value="sign:q"]')) await press(page, 'sign:q') // it asks in the middle of an animal
  await says(page, 'Robin has met 1 animal')
}

// keyed goes with keys alone to what is wanted.
async function keyed(checks, page, wanted) {
  await page.evaluate(() => document.activeElement.blur())
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab')
    if (await page.evaluate(`(${wanted})(document.activeElement)`)) return
  }
  checks.fault(`keys alone do not come to ${wanted}`)
}

// meanwhile practises in the middle of a visit, which is as it was afterwards.
async function meanwhile(checks, page) {
  const before = await page.evaluate(() => rillkey.file())
  await press(page, 'go:hand')
  await says(page, 'meanwhile') // practise or practice, as the region spells it
  await press(page, 'practise')
  await says(page, 'What is it?')
  await press(page, 'sign:q')
  await says(page, 'Hand over')
  if (await page.evaluate(() => rillkey.file()) !== before) checks.fault('practice changed the visit')
}

// thumb presses one spot again and again: the same kind must be under it, and what is
// drawn stays as it is.
async function thumb(checks, page) {
  await page.waitForFunction(() => document.querySelectorAll('.tile .figure').length > 20 && !document.querySelector('.tile .figure:empty'))
  await page.evaluate(() => { for (const svg of document.querySelectorAll('.tile svg')) svg.stays = true })
  await page.evaluate(() => [...document.querySelectorAll('button.plus')][6].scrollIntoView({ block: 'center' }))
  const spot = await page.evaluate(() => {
    const box = [...document.querySelectorAll('button.plus')][6].getBoundingClientRect()
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
  })
  const under = () => page.evaluate(({ x, y }) => document.elementFromPoint(x, y).value, spot)
  const first = await under()
  for (let i = 0; i < 3; i++) {
    await page.mouse.click(spot.x, spot.y)
    if (await under() !== first) checks.fault(`after ${i + 1} presses ${await under()} is under the thumb, not ${first}`)
  }
  await says(page, '3 animals')
  if (await page.evaluate(() => [...document.querySelectorAll('.tile .figure')].some((f) => !f.firstChild || !f.firstChild.stays))) {
    checks.fault('counting draws animals anew')
  }
}

// twice has a thumb come down twice on one answer, which answers one question, and the
// page closed and opened before the next.
async function twice(checks, page) {
  await press(page, 'name')
  await press(page, 'answer:<') // none of the marks
  await says(page, 'Question 1')
  await page.waitForSelector('button[value="answer:?"]')
  await page.click('button[value="answer:?"]', { count: 2 })
  await says(page, 'Question 2')
  await says(page, 'Kept on this phone.')
  await page.reload()
  await says(page, 'Question', 60000)
  const title = await page.evaluate(() => document.querySelector('h1').innerText)
  if (!title.startsWith('Question 2')) checks.fault(`after two taps on one answer, closed and opened again: ${title}`)
  await press(page, 'drop')
  await says(page, 'Go on with the animal that was left')
}

// secondLook has somebody else look, who is not told the first name.
async function secondLook(checks, page) {
  await press(page, 'go:hand')
  await page.evaluate(() => { document.querySelector('input[name=who]').value = 'Bo' })
  await press(page, 'who')
  await says(page, 'From here on by Bo')
  await press(page, 'go:board')
  await press(page, 'look:')
  await says(page, 'cell C3')
  if (await page.evaluate(() => /by Ada|set aside/i.test(document.body.innerText))) checks.fault('a second look is not blind')
  await checks.audit(page, 'look')
  await press(page, 'drop')
}

// slip enters what an expert made of a specimen.
async function slip(checks, page) {
  await press(page, 'go:tally')
  await page.evaluate(() => [...document.querySelectorAll('button[value^="entry:"]')].pop().click())
  await says(page, 'Its slip came back')
  await checks.audit(page, 'entry')
  await page.evaluate(() => {
    document.querySelector('input[name=is]').value = 'Baetidae'
    document.querySelector('input[name=expert]').value = 'Dr Wren'
  })
  await press(page, 'slip:')
  await says(page, 'counts as settled')
}

// handedOver saves the visit as a file, which is the way of such a page to a table.
async function handedOver(checks, page) {
  await press(page, 'go:hand')
  await says(page, 'it joins no table by itself')
  await checks.audit(page, 'alone')
  await page.evaluate(() => document.querySelector('main [data-act=give]').click())
  const there = () => fs.readdirSync(checks.folder).find((f) => /-tanyard-brook-bo\.visit\.toml$/.test(f))
  for (let i = 0; i < 50 && !there(); i++) await new Promise((r) => setTimeout(r, 100))
  if (!there()) checks.fault('the visit was not saved as a file')
  await page.close()
}

module.exports = { alone }

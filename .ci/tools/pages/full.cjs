// A phone whose browser has no room left for what is counted, out of the table's
// reach too, until it has some again.
const { says, press } = require('./audit.cjs')

async function full(checks, browser, link) {
  const page = await checks.watched(await browser.createBrowserContext(), 'full phone')
  const cdp = await page.createCDPSession()
  const origin = new URL(link).origin // the browser believes in room it had for half a minute: there is none from the start
  await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 })
  await page.goto(link)
  await says(page, 'Join the table', 60000)
  await page.type('input[name=name]', 'Ed')
  await press(page, 'join')
  await says(page, 'Known at sight')
  await says(page, 'NOT kept on this phone')
  await page.setOfflineMode(true)
  const animals = async () => Number(await page.evaluate(() => /(\d+) animal/.exec(document.querySelector('.where').innerText)[1]))
  const before = await animals()
  for (let i = 0; i < 2; i++) await press(page, 'more:row-0:1')
  await says(page, '2 not yet at the table')
  if (await page.evaluate(() => document.body.innerText.includes('Kept on this phone'))) checks.fault('it says kept where there is no room')
  if (!(await page.$('#keeping button[data-act=give]'))) checks.fault('no file is offered where there is no room')
  await checks.audit(page, 'full')
  await cdp.send('Storage.overrideQuotaForOrigin', { origin })
  await press(page, 'more:row-0:1')
  await says(page, 'Kept on this phone. 3 not yet at the table')
  await page.goto('about:blank')
  await page.goto(link)
  await says(page, 'Known at sight', 60000)
  if (await animals() !== before + 3) checks.fault(`${await animals()} animals are there after there was no room, not ${before + 3}`)
  await page.setOfflineMode(false)
  await says(page, 'All at the table')
  await page.close()
  return 3
}

module.exports = { full }

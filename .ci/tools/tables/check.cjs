// check.cjs FOLDER: validates datapackage.json and every row of its tables,
// keys and relations included. Prints the number of rows; fails on any error.
const { Package } = require('datapackage')
const path = require('path')

async function main(folder) {
  const pack = await Package.load(path.join(folder, 'datapackage.json'), { basePath: folder, strict: true })
  if (!pack.valid) throw new Error(pack.errors.map(String).join('\n'))
  for (const resource of pack.resources) {
    const rows = await resource.read({ keyed: true, cast: true, relations: true })
    console.log(`${resource.name}: ${rows.length} rows are valid`)
  }
}

main(process.argv[2]).catch((error) => {
  console.error(String(error))
  for (const one of error.errors || []) console.error(String(one))
  process.exit(1)
})

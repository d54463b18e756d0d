/** One import by the built package, `node import-once.mjs SOURCE FOLDER`: prints its seconds and its most memory in MB. */
import { importRecording } from '../dist/store/import-recording.js'

const [source, folder] = process.argv.slice(2)
const start = performance.now()
const { recording } = await importRecording(source, folder)
const seconds = (performance.now() - start) / 1000
recording.close()
console.log(`${seconds} ${process.resourceUsage().maxRSS / 1024}`)

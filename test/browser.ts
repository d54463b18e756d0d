/** How tests start a browser: the one that `npm test` found or installed. */
import { existsSync } from 'node:fs'

export function launchOptions() {
  const executablePath =
    process.env.OVERWINTER_CHROMIUM ?? ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync)
  if (executablePath === undefined)
    throw new Error(
      'no browser: run the tests through "npm test", which finds or installs one, or set OVERWINTER_CHROMIUM',
    )
  return {
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  }
}

/** Opens an address in the user's browser; where that does not work, the address stands in the terminal. */
import { spawn } from 'node:child_process'

const COMMANDS: Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
}

export function openBrowser(address: string): void {
  const [command, ...before] = COMMANDS[process.platform] ?? ['xdg-open']
  const child = spawn(command, [...before, address], { stdio: 'ignore', detached: true })
  child.on('error', () => {})
  child.unref()
}

/** A serial port to listen to: a real pseudo-terminal, which Python opens. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'

/**
 * Prints the name of the far end, then writes what it is given on its standard input, and pulls the cable at the end of
 * that.
 */
const PORT = `
import os, pty, sys, tty
near, far = pty.openpty()
tty.setraw(far)
print(os.ttyname(far), flush=True)
while data := os.read(0, 65536):
    while data:
        data = data[os.write(near, data):]
os.close(far)
os.close(near)
`

export interface Port {
  readonly name: string
  readonly child: ChildProcess
  readonly say: (text: string) => void
  readonly pull: () => void
}

export async function openPort(): Promise<Port> {
  const child = spawn('python3', ['-c', PORT], { stdio: ['pipe', 'pipe', 'inherit'] })
  const [name] = (await once(createInterface({ input: child.stdout }), 'line')) as [string]
  return {
    name,
    child,
    say: (text) => void child.stdin.write(text),
    pull: () => void child.stdin.end(),
  }
}

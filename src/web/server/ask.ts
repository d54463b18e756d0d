/** Questions to the server that answer at once. What it refuses is thrown in its own words. */
import type { Conflict, FileText, Folder, Refused, Save, Saved } from '../../api/files.ts'

export class Refusal extends Error {}

export async function ask<T>(address: string, init?: RequestInit): Promise<T> {
  return (await answerOf(address, init)).json() as Promise<T>
}

export async function answerOf(address: string, init?: RequestInit): Promise<Response> {
  const response = await fetch(address, init).catch((error: unknown) => {
    if (error instanceof DOMException && error.name === 'AbortError') throw error
    throw new Refusal('The workbench does not answer. Is the program that serves it still running?')
  })
  if (response.ok) return response
  throw new Refusal(await refusedBy(response))
}

async function refusedBy(response: Response): Promise<string> {
  const told = (await response.json().catch(() => null)) as Refused | null
  return told?.refused ?? `The workbench answered with ${response.status}.`
}

const json = (body: unknown): RequestInit => ({
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
})

export const post = <T>(address: string, body: unknown, init?: RequestInit): Promise<T> =>
  ask<T>(address, { method: 'POST', ...json(body), ...init })

export const folder = (): Promise<Folder> => ask('/api/folder')

export const textOf = (file: string): Promise<FileText> => ask(`/api/text?file=${encodeURIComponent(file)}`)

export async function bytesOf(file: string): Promise<Uint8Array> {
  const response = await answerOf(`/api/bytes?file=${encodeURIComponent(file)}`)
  return new Uint8Array(await response.arrayBuffer())
}

/** What stands there now, where it is no longer what the text was made from. */
export async function save(what: Save): Promise<Saved | Conflict> {
  const response = await fetch('/api/text', { method: 'PUT', ...json(what) }).catch(() => {
    throw new Refusal('Not saved: the workbench does not answer. The text is kept here; it tries again.')
  })
  if (response.ok || response.status === 409) return response.json() as Promise<Saved | Conflict>
  throw new Refusal(await refusedBy(response))
}

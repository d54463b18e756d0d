/** What the workbench's server is told, so that a test can tell it something else. */
export interface Setting {
  /** Absolute; nothing outside it is read or written. */
  readonly folder: string
  /** A copy of the examples. */
  readonly isScratch: boolean
  /** Asked of everyone who connects; null where only this machine can. */
  readonly token: string | null
  /** What the Host header may say, in small letters and with the port. */
  readonly hosts: ReadonlySet<string>
  /** Threads that one piece of long work may take. */
  readonly threads: number
  /** The built pages: index.html and assets/. */
  readonly webRoot: string
  /** The year whose clock changes hold. */
  readonly calendarYear: () => number
  /** Aborted when the server stops: event streams end, and work under way with them. */
  readonly closing: AbortSignal
  /** Told what went wrong through our own fault; it goes to whoever started the server, never to a page. */
  readonly onFault: (error: unknown) => void
}

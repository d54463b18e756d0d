/** How long work is to be done: on how many threads, who watches it, and what may stop it. */
export interface Playing {
  readonly threads: number
  /** Called after each part with how much is done. */
  readonly onProgress?: (done: number, of: number) => void
  readonly signal?: AbortSignal
}

/**
 * What is known of the draft at this moment: at once from the what-if in a Web Worker, after a pause from the server's
 * full ensemble. The newest text wins; an answer always says which text it is of.
 */
import type { Diagnostic } from '../../outpost/file/diagnostic.ts'
import type { Outpost } from '../../outpost/outpost.ts'
import type { Forecast } from '../../report/forecast.ts'
import { openedNow, watchOpened } from '../draft/keeper.ts'
import { routeNow, watchRoute } from '../route.ts'
import { bytesOf } from '../server/ask.ts'
import { work } from '../server/work.ts'
import { storeOf, useStore } from '../store.ts'
import type { Answer, Question } from '../what-if/messages.ts'

export interface Answers {
  /** The text, and its variant, that was read last. */
  readonly text: string | null
  readonly variant: string | null
  readonly diagnostics: readonly Diagnostic[]
  readonly variants: readonly string[]
  /** Of the last text without errors: pages go on showing it while one is being typed. */
  readonly outpost: Outpost | null
  readonly assumptions: readonly { readonly path: string; readonly text: string }[]
  readonly forecast: Forecast | null
  readonly from: 'what-if' | 'server'
  /** The forecast is of this very text. */
  readonly isCurrent: boolean
  /** All its runs are played. */
  readonly isWhole: boolean
  /** The server's ensemble: how far it is, 0..1; null when none is under way. */
  readonly progress: number | null
  readonly broken: string | null
}

const NONE: Answers = {
  text: null,
  variant: null,
  diagnostics: [],
  variants: [],
  outpost: null,
  assumptions: [],
  forecast: null,
  from: 'what-if',
  isCurrent: false,
  isWhole: false,
  progress: null,
  broken: null,
}

/** So long nothing is typed before the server plays the whole. */
const PAUSE_MS = 1200
export const SEED = 1

const answers = storeOf<Answers>(NONE)
export const useAnswers = (): Answers => useStore(answers)

/** The variant in the address, where the text that was read last has none of that name; null where all is well. */
export function useMissingVariant(): string | null {
  const { text, variant, variants, diagnostics } = useAnswers()
  const isRead = text !== null && diagnostics.every(({ severity }) => severity !== 'error')
  return isRead && variant !== null && !variants.includes(variant) ? variant : null
}

const worker = new Worker(new URL('../what-if/what-if.worker.ts', import.meta.url), { type: 'module' })
const files = new Map<string, Uint8Array>()
const refusedFiles = new Set<string>()
let asked: Question = { id: 0, file: '', text: '', files: {}, variant: null, seed: SEED, calendarYear: 0 }
let full: AbortController | null = null
let pause: ReturnType<typeof setTimeout> | undefined

worker.onmessage = ({ data }: MessageEvent<Answer>) => {
  if (data.id !== asked.id) return
  switch (data.kind) {
    case 'read':
      return take(data)
    case 'forecast':
      return answers.set((now) =>
        now.isCurrent && now.from === 'server'
          ? now
          : { ...now, forecast: data.forecast, from: 'what-if', isCurrent: true, isWhole: data.isWhole },
      )
    case 'written': // of the first page's sentence, which has a worker of its own
      return
    case 'broken':
      return answers.set((now) => ({ ...now, broken: data.why }))
  }
}
worker.onerror = (event) =>
  answers.set((now) => ({ ...now, broken: event.message || 'it could not be loaded' }))

function take(read: Extract<Answer, { kind: 'read' }>): void {
  answers.set((now) => ({
    ...now,
    text: asked.text,
    variant: asked.variant,
    diagnostics: read.diagnostics,
    variants: read.variants,
    outpost: read.outpost ?? now.outpost,
    assumptions: read.outpost === null ? now.assumptions : read.assumptions,
    isCurrent: false,
  }))
  const wanted = read.wanted.filter((name) => !files.has(name) && !refusedFiles.has(name))
  if (wanted.length > 0) void fetchFiles(wanted)
  else if (read.outpost !== null) playSoon()
}

async function fetchFiles(names: readonly string[]): Promise<void> {
  const { file } = asked
  await Promise.all(
    names.map(async (name) => {
      try {
        files.set(name, await bytesOf(besides(file, name)))
      } catch {
        refusedFiles.add(name)
      }
    }),
  )
  if (asked.file === file) question()
}

/** As a path of the folder: what an outpost file names is found beside it. */
export function besides(file: string, name: string): string {
  const { pathname } = new URL(name.split('/').map(encodeURIComponent).join('/'), `http://folder/${file}`)
  return decodeURIComponent(pathname.slice(1))
}

/** After a pause, unless something else is typed. */
function playSoon(): void {
  clearTimeout(pause)
  pause = setTimeout(() => void play(asked), PAUSE_MS)
}

async function play({ id, file, text, variant, seed }: Question): Promise<void> {
  const controller = new AbortController()
  full = controller
  const isLatest = () => asked.id === id && full === controller
  answers.set((now) => ({ ...now, progress: 0 }))
  try {
    const forecast = await work<'forecast'>(
      { work: 'forecast', file, text, variant, seed },
      {
        signal: controller.signal,
        onTold: (told) => {
          if (told.event === 'progress' && isLatest())
            answers.set((now) => ({ ...now, progress: told.done / told.of }))
        },
      },
    )
    if (isLatest())
      answers.set((now) => ({
        ...now,
        forecast,
        from: 'server',
        isCurrent: true,
        isWhole: true,
        progress: null,
      }))
  } catch {
    // The what-if stands; a server that is gone is told by the frame of the page.
    if (isLatest()) answers.set((now) => ({ ...now, progress: null }))
  }
}

function question(): void {
  const opened = openedNow()
  if (opened.is !== 'open') return
  const { file, text } = opened.draft
  full?.abort()
  full = null
  clearTimeout(pause)
  if (file !== asked.file) {
    files.clear()
    refusedFiles.clear()
    answers.set(NONE)
  } else answers.set((now) => ({ ...now, isCurrent: false, progress: null }))
  asked = {
    id: asked.id + 1,
    file,
    text,
    files: Object.fromEntries(files),
    variant: routeNow().variant,
    seed: SEED,
    calendarYear: new Date().getFullYear(),
  }
  worker.postMessage(asked)
}

const isAsked = (): boolean => {
  const opened = openedNow()
  return (
    opened.is === 'open' &&
    opened.draft.file === asked.file &&
    opened.draft.text === asked.text &&
    routeNow().variant === asked.variant
  )
}

/** Begins to answer whatever is typed. */
export function answerDraft(): () => void {
  const look = () => {
    if (!isAsked()) question()
  }
  look()
  const stops = [watchOpened(look), watchRoute(look)]
  return () => {
    for (const stop of stops) stop()
  }
}

/** What page and server say to each other about the files of the folder. Paths are relative to it, with `/`. */

/** Changes whenever the bytes of the file do: a hash of them, or of size and time for files above 8 MB. */
export type Version = string

export interface OutpostEntry {
  readonly file: string
  /** Null where it has none, or cannot be read as YAML. */
  readonly title: string | null
}

export interface RecordingEntry {
  readonly file: string
  readonly bytes: number
  /** Imported already: it opens at once. */
  readonly kept: boolean
}

/** `GET /api/folder` */
export interface Folder {
  /** As people call it: the whole path. */
  readonly path: string
  /** A copy of the examples, made because the folder has no outposts. */
  readonly isScratch: boolean
  readonly outposts: readonly OutpostEntry[]
  readonly recordings: readonly RecordingEntry[]
  /** Instrument files, and parts lists. */
  readonly instruments: readonly string[]
  readonly partsLists: readonly string[]
  /** Weather files that an outpost can name. */
  readonly weather: readonly string[]
  /** Built-in places. */
  readonly places: readonly string[]
  readonly threads: number
}

/** `GET /api/text?file=` an outpost file; `GET /api/bytes?file=` answers with a weather file's bytes. */
export interface FileText {
  readonly file: string
  readonly text: string
  readonly version: Version
}

/** `PUT /api/text` saves through write-and-rename; answers 200 with Saved, or 409 with what stands there now. */
export interface Save {
  readonly file: string
  readonly text: string
  /** What the text was made from; null for a file that must not be there yet. */
  readonly before: Version | null
}

export interface Saved {
  readonly version: Version
}

/** 409: null where the file is gone. */
export interface Conflict {
  readonly now: FileText | null
}

/** Any answer of 400, 403, 404, 413, 422: what was wrong, and what to do, in sentences. */
export interface Refused {
  readonly refused: string
}

/** `GET /api/events`, server-sent: a file of the folder was changed, made or removed (version null) by anyone. */
export interface FileChanged {
  readonly file: string
  readonly version: Version | null
}

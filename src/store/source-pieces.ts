/** The bytes of a source file in pieces, unpacked where it is gzip; the first piece is long enough to tell its format. */
import { createReadStream } from 'node:fs'
import { Readable } from 'node:stream'
import { createGunzip } from 'node:zlib'

/** `onBytes` hears how many bytes of the file itself have been read, and may throw to stop. */
export async function* sourcePieces(
  path: string,
  headBytes: number,
  onBytes: (done: number) => void,
): AsyncGenerator<Uint8Array> {
  let gathered: Uint8Array[] | null = []
  let length = 0
  for await (const piece of unpacked(read(path, onBytes))) {
    if (gathered === null) {
      yield piece
      continue
    }
    gathered.push(piece)
    length += piece.length
    if (length < headBytes) continue
    yield Buffer.concat(gathered)
    gathered = null
  }
  if (gathered !== null) yield Buffer.concat(gathered)
}

async function* read(path: string, onBytes: (done: number) => void): AsyncGenerator<Uint8Array> {
  let done = 0
  for await (const piece of createReadStream(path, { highWaterMark: 1 << 20 })) {
    done += piece.length
    onBytes(done)
    yield piece
  }
}

async function* unpacked(pieces: AsyncGenerator<Uint8Array>): AsyncGenerator<Uint8Array> {
  const first = await pieces.next()
  if (first.done) return
  const all = (async function* () {
    yield first.value
    yield* pieces
  })()
  if (first.value[0] !== 0x1f || first.value[1] !== 0x8b) {
    yield* all
    return
  }
  const packed = Readable.from(all)
  const gunzip = createGunzip({ chunkSize: 1 << 18 })
  // A pipe does not carry errors on; without this an abort would leave the reader waiting.
  packed.on('error', (error) => gunzip.destroy(error))
  yield* packed.pipe(gunzip)
}

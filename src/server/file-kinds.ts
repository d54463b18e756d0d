/** The only kinds of file that the workbench reads or writes, by their names. */
const KINDS = {
  outpost: /\.outpost\.ya?ml$/i,
  /** Instruments and parts lists. */
  list: /(?<!\.outpost)\.ya?ml$/i,
  weather: /\.(epw|tmy3|csv)$/i,
  recording: /\.(csv|tsv|npy|f32|raw)(\.gz)?$/i,
} as const

export type FileKind = keyof typeof KINDS

export const isOfKind = (kind: FileKind, name: string): boolean => KINDS[kind].test(name)

export const isOfAnyKind = (name: string): boolean => Object.values(KINDS).some((kind) => kind.test(name))

/** As sentences name them. */
export const KIND_WORDS: Readonly<Record<FileKind, string>> = {
  outpost: 'an outpost file (*.outpost.yaml)',
  list: 'an instrument file or a parts list (*.yaml)',
  weather: 'a weather file (.epw, .tmy3, .csv)',
  recording: 'a recording (.csv, .tsv, .npy, .f32, .raw, or one of them with .gz)',
}

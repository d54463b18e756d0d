/** A figure of the report: a drawing, a caption in sentences, and the numbers behind it as a table. */
export interface Figure {
  readonly id: string
  readonly title: string
  readonly caption: string
  readonly svg: string
  readonly head: readonly string[]
  readonly rows: readonly (readonly (string | number)[])[]
}

/** An answer that the user's input, not our code, prevents: carries the text to show and the exit code. */
export class Refusal extends Error {
  override readonly name = 'Refusal'
  readonly exitCode: 1 | 2

  constructor(message: string, exitCode: 1 | 2 = 2) {
    super(message)
    this.exitCode = exitCode
  }
}

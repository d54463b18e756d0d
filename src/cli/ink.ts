/** The ink for what goes to standard output: colour only on a terminal, and only where it is wanted. */
import { COLOUR, type Ink, PLAIN } from '../report/terminal.ts'
import type { Environment } from '../workbench/environment.ts'

export const inkFor = ({ outIsTerminal, wantsColour }: Environment): Ink =>
  outIsTerminal && wantsColour ? COLOUR : PLAIN

/** The fence around a folder: to which real file or folder a path leads, if it leads to one inside. */
import { realpathSync, statSync } from 'node:fs'
import { isAbsolute, relative, resolve, sep } from 'node:path'

export type Inside =
  | { readonly is: 'file' | 'folder'; readonly path: string }
  | { readonly is: 'missing' }
  /** Outside the folder, hidden in it, or neither file nor folder. */
  | { readonly is: 'barred' }

/**
 * Follows `path`, relative to `folder` or absolute, through all its links. Hidden files and folders (`.git`) are barred,
 * and so are pipes and devices, which would be waited for.
 */
export function insideFolder(folder: string, path: string): Inside {
  const asked = resolve(folder, path)
  if (!isWithin(folder, asked)) return { is: 'barred' }
  try {
    const real = realpathSync(asked)
    if (!isWithin(realpathSync(folder), real)) return { is: 'barred' }
    const about = statSync(real)
    if (about.isFile()) return { is: 'file', path: real }
    return about.isDirectory() ? { is: 'folder', path: real } : { is: 'barred' }
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException
    return { is: ['ENOENT', 'ENOTDIR', 'ENAMETOOLONG'].includes(code) ? 'missing' : 'barred' }
  }
}

/** Below the folder by its name alone, and not hidden. */
function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path)
  return way !== '' && !isAbsolute(way) && !way.split(sep).some((part) => part.startsWith('.'))
}

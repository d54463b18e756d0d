/** Around a page: when it breaks, or its script is gone from the server, the frame stands and says what to do. */
import { Component, type ReactNode } from 'react'

interface PageGuardProps {
  readonly title: string
  readonly children: ReactNode
}

/** A class, for React has no other form for what catches errors of its children. */
export class PageGuard extends Component<PageGuardProps, { readonly broken: Error | null }> {
  override state = { broken: null as Error | null }

  static getDerivedStateFromError(broken: Error) {
    return { broken }
  }

  override render() {
    const { broken } = this.state
    if (broken === null) return this.props.children
    return (
      <section className="empty" role="alert">
        <p className="problem error">
          The page “{this.props.title}” broke: {broken.message}.
        </p>
        <p>
          The outpost and what was typed are kept; the other pages still work. This is a fault of the
          workbench.{' '}
          <button type="button" onClick={() => location.reload()}>
            Load the page again
          </button>
        </p>
      </section>
    )
  }
}

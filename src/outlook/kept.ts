/** A bounded store of what is costly to make again; what was asked for longest ago goes first. */
export class Kept<V> {
  private readonly values = new Map<string, V>()
  private readonly most_bytes: number
  private readonly bytesOf: (value: V) => number

  /** `bytesOf` is asked anew each time: values may grow. */
  constructor(most_bytes: number, bytesOf: (value: V) => number) {
    this.most_bytes = most_bytes
    this.bytesOf = bytesOf
  }

  /** The value kept under `key`, or a new one. The one given stays, however large it is. */
  get(key: string, make: () => V): V {
    const value = this.values.get(key) ?? make()
    // A map gives its keys in the order in which they were put in.
    this.values.delete(key)
    this.values.set(key, value)
    let bytes = 0
    for (const each of this.values.values()) bytes += this.bytesOf(each)
    for (const [oldest, each] of this.values) {
      if (bytes <= this.most_bytes || oldest === key) break
      this.values.delete(oldest)
      bytes -= this.bytesOf(each)
    }
    return value
  }
}

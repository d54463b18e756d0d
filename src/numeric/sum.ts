/** Sums that do not lose small terms beside large ones (Neumaier 1974, a variant of Kahan's). */

export class CompensatedSum {
  private sum = 0
  private lost = 0

  add(x: number): void {
    const next = this.sum + x
    this.lost += Math.abs(this.sum) >= Math.abs(x) ? this.sum - next + x : x - next + this.sum
    this.sum = next
  }

  get value(): number {
    return this.sum + this.lost
  }
}

export function compensatedSum(values: ArrayLike<number>): number {
  const sum = new CompensatedSum()
  for (let i = 0; i < values.length; i++) sum.add(values[i])
  return sum.value
}

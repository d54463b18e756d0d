import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { turnsFor } from './turns.ts'

const never = new AbortController().signal
const nothing = () => {}

describe('turns', () => {
  it('are taken in the order of coming, so many at once', async () => {
    const turns = turnsFor(2)
    const order: number[] = []
    const take = (i: number) =>
      turns.take(never, nothing).then((done) => {
        order.push(i)
        return done!
      })
    const [a, , c, d] = [take(0), take(1), take(2), take(3)]
    const endFirst = await a
    expect(order).toEqual([0, 1])
    endFirst()
    endFirst() // a second end gives no second turn
    await c
    await new Promise(setImmediate)
    expect(order).toEqual([0, 1, 2])
    ;(await c)()
    await d
    expect(order).toEqual([0, 1, 2, 3])
  })

  it('never are more than allowed, and none is lost, whoever leaves', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 3 }),
        fc.array(fc.boolean(), { maxLength: 20 }),
        async (atOnce, leaves) => {
          const turns = turnsFor(atOnce)
          let now = 0
          const all = leaves.map(async (leavesEarly) => {
            const controller = new AbortController()
            const turn = turns.take(controller.signal, nothing)
            if (leavesEarly) controller.abort()
            const done = await turn
            if (done === null) return 0
            now++
            expect(now).toBeLessThanOrEqual(atOnce)
            await new Promise(setImmediate)
            now--
            done()
            return 1
          })
          const served = (await Promise.all(all)).filter((each) => each === 1).length
          expect(served).toBeGreaterThanOrEqual(leaves.filter((leavesEarly) => !leavesEarly).length)
          const free = await Promise.all(Array.from({ length: atOnce }, () => turns.take(never, nothing)))
          expect(free.every((each) => each !== null)).toBe(true)
        },
      ),
    )
  })
})

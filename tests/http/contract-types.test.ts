import { expectTypeOf, it } from 'vitest'
import type { CaseSolution as MirroredCaseSolution } from '#contract/case-solution.ts'
import type { RouteInput, RouteOutput } from '#contract/route.ts'
import type { routes } from '#contract/routes.ts'
import type { CaseSolution } from '#domain/electrical/solution.ts'

/** The mirror is made of mutable arrays and objects; nothing else may differ. */
type Mutable<Value> = Value extends object
  ? { -readonly [Key in keyof Value]: Mutable<Value[Key]> }
  : Value

it('describes the electrical answer exactly as the solver gives it', () => {
  expectTypeOf<MirroredCaseSolution>().toExtend<CaseSolution>()
  expectTypeOf<Mutable<CaseSolution>>().toExtend<MirroredCaseSolution>()
})

it('lets a caller leave out what has a default and nothing else', () => {
  type Input = RouteInput<typeof routes.startStudy>
  expectTypeOf<{
    params: { feederId: string }
    body: { request: { banks: 2 } }
  }>().toExtend<Input>()
  expectTypeOf<{ body: { request: { banks: 2 } } }>().not.toExtend<Input>()
  expectTypeOf<{
    params: { feederId: string }
    body: { request: { banks: 3 } }
  }>().not.toExtend<Input>()
})

it('tells a caller the type of the answer', () => {
  expectTypeOf<RouteOutput<typeof routes.listFeeders>[number]['poles']>().toEqualTypeOf<number>()
})

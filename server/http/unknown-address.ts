import type { Context } from 'hono'
import { routes } from '#contract/routes.ts'
import { Refusal } from '../services/refusal.ts'

/** Why an address below /api is not served: nothing there, or not by this method. */
export function unknownAddress(context: Context): never {
  const { method, path } = context.req
  const methods = methodsAt(path)
  if (methods.length === 0) throw new Refusal('not-found', `There is nothing at ${path}.`)
  context.header('allow', methods.join(', '))
  throw new Refusal('method-not-allowed', `${path} takes ${methods.join(' or ')}, not ${method}.`)
}

function methodsAt(path: string): string[] {
  return Object.values(routes)
    .filter((route) => patternOf(route.path).test(path))
    .map(({ method }) => method)
}

function patternOf(path: string): RegExp {
  return new RegExp(`^${path.replaceAll('.', '\\.').replaceAll(/\{\w+\}/g, '[^/]+')}$`)
}

import type { Reporter, TestModule } from 'vitest/node'
import { POSTGRES_VARIABLE } from './postgres-server.ts'

/** Says at the end how many tests ran on which database. */
export default class DatabasesReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const onBoth = modules.filter(({ relativeModuleId }) =>
      /^tests\/(store|http|faults)\//.test(relativeModuleId),
    )
    const isOnPostgres = ({ project }: TestModule) => project.name.includes('PostgreSQL')
    const onPostgres = count(onBoth.filter(isOnPostgres))
    const onSqlite = count(onBoth.filter((module) => !isOnPostgres(module)))
    const rest = count(modules) - onPostgres - onSqlite
    const why = process.env[POSTGRES_VARIABLE] ? '' : ', which is not installed'
    console.log(
      `Tests of store and server: ${onSqlite} ran on SQLite, ${onPostgres || 'none'} on PostgreSQL${onPostgres ? '' : why}. ${rest} other tests ran once.`,
    )
  }
}

function count(modules: readonly TestModule[]): number {
  return modules
    .flatMap(({ children }) => [...children.allTests()])
    .filter((test) => test.result().state !== 'skipped').length
}

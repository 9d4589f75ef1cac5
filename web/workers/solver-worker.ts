import { answerCalls } from './answer-calls.ts'
import { solverFunctions } from './solver-functions.ts'

answerCalls(solverFunctions)

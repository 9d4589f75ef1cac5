import { answerCalls } from './answer-calls.ts'
import { sitingFunctions } from './siting-functions.ts'

answerCalls(sitingFunctions)

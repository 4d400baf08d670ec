export { answerChoiceProgress as GET } from '../../../../../_choice/choice-progress'

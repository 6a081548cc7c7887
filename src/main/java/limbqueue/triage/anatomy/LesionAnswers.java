package limbqueue.triage.anatomy;

import limbqueue.triage.question.Answers;

/** Where rules about lesions get their answers from; as everywhere, they never see an unknown. */
interface LesionAnswers {

    <T> T of(LesionFact<T> fact);

    /** What is known as it is, the rest as {@code answers} has it. */
    static LesionAnswers exploring(Answers answers) {
        return new LesionAnswers() {
            @Override
            public <T> T of(LesionFact<T> fact) {
                return fact.known().isPresent() ? fact.known().get() : answers.of(fact.topic());
            }
        };
    }
}

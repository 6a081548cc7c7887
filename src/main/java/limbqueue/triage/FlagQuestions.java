package limbqueue.triage;

/** Questions whose answer decides a red flag only. */
final class FlagQuestions {

    private FlagQuestions() {}

    static String ask(String path) {
        return switch (path) {
            case "deferredElsewhere.days" -> "For how many days did the other hospital put the treatment off?";
            case "asked.expediteGrounds" ->
                "Why should it be faster: a change in the leg, a personal reason, or travel?";
            case "armPressures.left" -> "What is the blood pressure in the left arm?";
            case "armPressures.right" -> "What is the blood pressure in the right arm?";
            case "history.diabetes" -> "Has the patient diabetes?";
            case "history.dialysis" -> "Is the patient on dialysis?";
            case "legs.left.pressures.waveform" -> "What form has the Doppler wave at the left ankle?";
            case "legs.right.pressures.waveform" -> "What form has the Doppler wave at the right ankle?";
            default -> throw new IllegalArgumentException("no question is written for " + path);
        };
    }
}

package limbqueue.triage.perfusion;

/**
 * How well a leg is supplied, as the grades need it.
 *
 * @param ischaemia WIfI ischaemia grade, 0 to 3
 * @param poorAtRest whether pressures are low enough to explain pain at rest
 * @param low whether the ankle figures are low enough to deal with claudication soon
 * @param distal whether the grade rests on toe pressure or transcutaneous oxygen, which calcified arteries do not falsify
 */
public record Perfusion(int ischaemia, boolean poorAtRest, boolean low, boolean distal) {}

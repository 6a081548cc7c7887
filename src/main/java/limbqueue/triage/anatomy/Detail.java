package limbqueue.triage.anatomy;

import java.util.List;
import java.util.Optional;

/**
 * One thing about a lesion that is known or could be asked. Unlike the topics of a leg, of which there is one each, there
 * are as many of these as lesions times fields, and a known length is any number; so they are explored by themselves.
 *
 * @param path the field of the referral that an answer fills
 * @param known the answer, where the referral gives it
 * @param actOn what to act on while it is unknown
 * @param choices answers that stand for all answers
 * @param ask the question, as it can be asked on the phone; empty when the format has no field for the answer
 */
record Detail<T>(String path, Optional<T> known, T actOn, List<T> choices, String ask) {}

package limbqueue.triage.anatomy;

/** Where a rule gets the details of a lesion from. The rule never sees an unknown. */
interface Details {

    <T> T of(Detail<T> detail);
}

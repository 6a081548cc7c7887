package limbqueue.reading;

/** Reads one clinical idea out of a letter. Rules hold no state, so that letters can be read side by side. */
interface Rule {
    void read(Page page, Findings findings);
}

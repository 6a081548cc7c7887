package planted.kitchen;

import planted.cellar.inner.Barrel;

/** Breaks: it uses a module that it may not use, and a package that is not for others. */
public final class Cook {

    public int pour() {
        return new Barrel(1).litres();
    }
}

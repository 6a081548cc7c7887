package planted.kitchen;

/** Breaks: the name says nothing. */
public final class KitchenManager {}

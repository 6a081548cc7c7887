package planted.cellar.inner;

/** Reached from elsewhere, which breaks the rule. */
public record Barrel(int litres) {}

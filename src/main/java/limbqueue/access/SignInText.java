package limbqueue.access;

/** What the sign-in page says besides asking for a name; given by the modules that know it. */
public record SignInText(String notice) {}

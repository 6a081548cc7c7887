package limbqueue.file;

/**
 * Looks for viruses in a file before it is kept. To have another way of looking than {@link ScannerProgram}, make a
 * bean
 * of this type.
 */
@FunctionalInterface
public interface VirusScan {

    enum Finding {
        CLEAN,
        INFECTED,
        /** It could not be looked at, so nothing is known. */
        NOT_LOOKED_AT
    }

    /** @param content which is not to be changed */
    Finding look(byte[] content);
}

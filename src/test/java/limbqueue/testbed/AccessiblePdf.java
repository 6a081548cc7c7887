package limbqueue.testbed;

import java.io.ByteArrayInputStream;
import java.util.SortedSet;
import java.util.TreeSet;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;

/** What veraPDF, an open validator, says of a PDF after PDF/UA-1 (ISO 14289-1:2014). */
public final class AccessiblePdf {

    private AccessiblePdf() {}

    /** The tests that it fails, each as its clause and the number of the test there, with what veraPDF says of it. */
    public static SortedSet<String> failures(byte[] pdf) {
        VeraGreenfieldFoundryProvider.initialise();
        var failures = new TreeSet<String>();
        try (var parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), PDFAFlavour.PDFUA_1);
                var validator = Foundries.defaultInstance().createValidator(PDFAFlavour.PDFUA_1, false)) {
            for (var test : validator.validate(parser).getTestAssertions()) {
                if (test.getStatus() == TestAssertion.Status.FAILED) {
                    failures.add(test.getRuleId().getClause() + "-"
                            + test.getRuleId().getTestNumber() + ": " + test.getMessage());
                }
            }
        } catch (Exception unreadable) {
            throw new IllegalStateException("veraPDF cannot read the PDF", unreadable);
        }
        return failures;
    }
}

// Checks files against the PDF/A-3a profile with veraPDF's library; prints each rule broken, exits 1 if any is.

import java.io.FileInputStream;
import java.util.Set;
import java.util.TreeSet;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

public class PdfaCheck {
    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        boolean all = files.length > 0;
        for (String name : files) {
            try (FileInputStream file = new FileInputStream(name);
                 PDFAParser parser = Foundries.defaultInstance().createParser(file, PDFAFlavour.PDFA_3_A);
                 PDFAValidator validator = Foundries.defaultInstance().createValidator(PDFAFlavour.PDFA_3_A, false)) {
                ValidationResult result = validator.validate(parser);
                System.out.println(name + ": " + (result.isCompliant() ? "PDF/A-3a, " : "NOT PDF/A-3a, ")
                        + result.getTotalAssertions() + " checks");
                Set<String> broken = new TreeSet<>();
                for (TestAssertion assertion : result.getTestAssertions()) {
                    if (assertion.getStatus() == TestAssertion.Status.FAILED) {
                        broken.add("  " + assertion.getRuleId() + " " + assertion.getMessage());
                    }
                }
                broken.forEach(System.out::println);
                all &= result.isCompliant();
            }
        }
        System.exit(all ? 0 : 1);
    }
}

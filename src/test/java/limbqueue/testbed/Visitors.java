package limbqueue.testbed;

import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;
import org.springframework.test.context.junit.jupiter.SpringExtension;

/** Gives a test the visitors it asks for, and takes their browsers away afterwards. */
final class Visitors implements ParameterResolver {

    private static final ExtensionContext.Namespace NAMESPACE = ExtensionContext.Namespace.create(Visitors.class);

    @Override
    public boolean supportsParameter(ParameterContext parameter, ExtensionContext test) {
        return parameter.getParameter().getType() == Visitor.class;
    }

    @Override
    public Object resolveParameter(ParameterContext parameter, ExtensionContext test) {
        var chromium = test.getRoot()
                .getStore(NAMESPACE)
                .computeIfAbsent(Chromium.class, none -> new Chromium(), Chromium.class);
        var port = SpringExtension.getApplicationContext(test).getEnvironment().getProperty("local.server.port");
        var visitor = new Visitor(chromium.launch(), "http://localhost:" + port + "/");
        test.getStore(NAMESPACE).put("visitor " + parameter.getIndex(), visitor);
        return visitor;
    }
}

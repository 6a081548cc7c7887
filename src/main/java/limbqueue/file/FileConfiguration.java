package limbqueue.file;

import java.time.Duration;
import java.util.List;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.autoconfigure.condition.ConditionalOnMissingBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What an operator sets for files. */
@Configuration(proxyBeanMethods = false)
class FileConfiguration {

    /** Off unless a command is set: then every file counts as clean. */
    @Bean
    @ConditionalOnMissingBean
    VirusScan virusScan(
            @Value("${limbqueue.file.scanner}") String command,
            @Value("${limbqueue.file.scanner-seconds}") int seconds) {
        return command.isBlank()
                ? _ -> VirusScan.Finding.CLEAN
                : new ScannerProgram(List.of(command.strip().split("\\s+")), Duration.ofSeconds(seconds));
    }
}

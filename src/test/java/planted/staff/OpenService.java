package planted.staff;

import jakarta.annotation.security.RolesAllowed;
import org.springframework.stereotype.Service;

/** Breaks: one of its methods asks for no role. */
@Service
public class OpenService {

    @RolesAllowed("MANAGER")
    public int guarded() {
        return 1;
    }

    public int open() {
        return 2;
    }
}

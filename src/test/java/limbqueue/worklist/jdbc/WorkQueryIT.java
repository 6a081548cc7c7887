package limbqueue.worklist.jdbc;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.testbed.TestDatabase;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

class WorkQueryIT {

    @Test
    void aDatabasePutInTheOthersPlaceIsToldFromItThoughBothHaveChangedAsOften() {
        var one = new WorkQuery(JdbcClient.create(TestDatabase.fresh().dataSource()));
        var other = new WorkQuery(JdbcClient.create(TestDatabase.fresh().dataSource()));

        assertThat(one.ground()).isEqualTo(one.ground()).isNotEqualTo(other.ground());
    }
}

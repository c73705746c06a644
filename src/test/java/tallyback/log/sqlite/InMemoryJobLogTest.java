package tallyback.log.sqlite;

import tallyback.log.JobLog;
import tallyback.log.JobLogContract;

final class InMemoryJobLogTest extends JobLogContract {

  @Override
  protected JobLog fresh() {
    return SqliteLogs.inMemory();
  }

  @Override
  protected JobLog reopened(JobLog log) {
    return log;
  }
}

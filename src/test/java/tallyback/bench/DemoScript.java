package tallyback.bench;

import java.io.IOException;
import java.util.List;

/** What is said in the demo's recordings, for tests of other packages. */
public final class DemoScript {

  private DemoScript() {}

  /** The lines of the index of known speech as they must be. */
  public static List<String> known() throws IOException {
    return DemoRecordings.known(DemoRecordings.read());
  }
}

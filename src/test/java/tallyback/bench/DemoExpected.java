package tallyback.bench;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import tallyback.app.Demo;

/**
 * Writes {@code demo-data/expected.json} from what the demo comes to now. Read the difference
 * before you keep it: each seeded fault must be there, and nothing else.
 *
 * <p>Command: {@code mvn -q -Pfigures process-test-classes -Dfigure=DemoExpected}
 */
public final class DemoExpected {

  private DemoExpected() {}

  /** Runs the demo in {@code demo-data} and writes its outcome there. */
  public static void main(String[] args) throws Exception {
    Path folder = Path.of("demo-data");
    Demo.Result result =
        Demo.run(
            folder,
            Files.createTempDirectory("demo"),
            InstantSource.system(),
            (done, of, last) -> {});
    ObjectMapper json = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    Files.writeString(
        folder.resolve("expected.json"),
        json.writeValueAsString(Demo.outcome(result.checked(), result.heard())) + "\n");
    System.out.println(result.checked().outcome().findings().size() + " findings");
  }
}

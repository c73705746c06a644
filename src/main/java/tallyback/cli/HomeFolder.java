package tallyback.cli;

import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Where the tool keeps things when nothing else is said: {@code --home}, else {@code
 * $TALLYBACK_HOME}, else the user's folders of the XDG Base Directory Specification 0.8.
 *
 * @param named the folder of {@code --home}, or null
 * @param environment the environment of the process
 */
record HomeFolder(@Nullable Path named, Map<String, String> environment) {

  /** The folder of the data file: by default {@code ~/.local/share/tallyback}. */
  Path data() {
    return folder("XDG_DATA_HOME", "share");
  }

  /** The folder of what may be thrown away: by default {@code ~/.local/state/tallyback}. */
  Path state() {
    return folder("XDG_STATE_HOME", "state");
  }

  private Path folder(String variable, String otherwise) {
    if (named != null) {
      return named;
    }
    String own = environment.get("TALLYBACK_HOME");
    if (own != null && !own.isEmpty()) {
      return Path.of(own);
    }
    String xdg = environment.get(variable);
    Path base =
        xdg != null && Path.of(xdg).isAbsolute()
            ? Path.of(xdg)
            : Path.of(System.getProperty("user.home"), ".local", otherwise);
    return base.resolve("tallyback");
  }
}

package tallyback.log.sqlite;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.sqlite.util.OSInfo;

/** What a process is started with so that it meets the limits of a machine: rights, space. */
public final class Bounds {

  private Bounds() {}

  /**
   * What to put before a command so that a file's rights bind it. The superuser is bound by them
   * without two of his capabilities, which setpriv (util-linux) takes from him.
   */
  public static List<String> byRights() {
    return "root".equals(System.getProperty("user.name"))
        ? List.of("setpriv", "--bounding-set=-dac_override,-dac_read_search")
        : List.of();
  }

  /**
   * What to put before a command so that no file it writes grows beyond a limit, as a full disk
   * would set one.
   */
  public static List<String> fileLimit(long limitKiB) {
    return List.of("bash", "-c", "ulimit -f " + limitKiB + "; exec \"$@\"", "child");
  }

  /** Options of the virtual machine without which the limit would already meet the unpacking. */
  public static List<String> nativePartOutsideTheLimit() {
    Path nativePart = unpackedNativePart();
    return List.of(
        "-Dorg.sqlite.lib.path=" + nativePart.getParent(),
        "-Dorg.sqlite.lib.name=" + nativePart.getFileName());
  }

  private static Path unpackedNativePart() {
    String resource =
        "/org/sqlite/native/"
            + OSInfo.getNativeLibFolderPathForCurrentOS()
            + "/"
            + System.mapLibraryName("sqlitejdbc");
    try (InputStream in = OSInfo.class.getResourceAsStream(resource)) {
      Path folder = Files.createTempDirectory("native");
      Path target = folder.resolve(System.mapLibraryName("sqlitejdbc"));
      Files.copy(Objects.requireNonNull(in, resource), target);
      // Deleted in the reverse of this order.
      folder.toFile().deleteOnExit();
      target.toFile().deleteOnExit();
      return target;
    } catch (IOException e) {
      throw new AssertionError("the native part can't be unpacked", e);
    }
  }
}

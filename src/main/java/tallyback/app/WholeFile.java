package tallyback.app;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/** Writes files that others may read: whole or not at all. Stateless. */
final class WholeFile {

  private WholeFile() {}

  /**
   * Writes beside the place first and moves it there when all of it is on disk.
   *
   * @param target an absolute path in a folder that is there
   * @throws IOException if it can't be written; what stood there is as it was then
   */
  static void write(Path target, byte[] bytes) throws IOException {
    // Not a temporary file, which only its owner may read.
    Path draft = target.resolveSibling("new-" + UUID.randomUUID() + ".part");
    try {
      Files.write(draft, bytes, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      try (FileChannel channel = FileChannel.open(draft, StandardOpenOption.WRITE)) {
        channel.force(true);
      }
      try {
        Files.move(draft, target, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(draft, target, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(draft);
    }
  }
}

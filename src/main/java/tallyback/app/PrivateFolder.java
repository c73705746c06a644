package tallyback.app;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * A folder that only its owner can read, and so are the files in it. A file is replaced as a whole
 * and is on disk when {@link #write} returns. Thread rule: one writer at a time.
 *
 * @param path where it is; made when something is first written
 */
record PrivateFolder(Path path) {

  void write(String name, byte[] bytes) throws IOException {
    make();
    Path fresh = path.resolve(name + ".new");
    Files.deleteIfExists(fresh);
    // Nobody else can read it at any moment, not even before there is something in it.
    if (isPosix()) {
      Files.createFile(
          fresh,
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
    } else {
      Files.createFile(fresh);
    }
    try (FileChannel channel = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
      ByteBuffer left = ByteBuffer.wrap(bytes);
      while (left.hasRemaining()) {
        int unused = channel.write(left);
      }
      channel.force(true);
    }
    Files.move(
        fresh,
        path.resolve(name),
        StandardCopyOption.ATOMIC_MOVE,
        StandardCopyOption.REPLACE_EXISTING);
  }

  private void make() throws IOException {
    Files.createDirectories(path);
    if (isPosix()) {
      Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwx------"));
    }
  }

  private boolean isPosix() {
    return Files.getFileAttributeView(path, PosixFileAttributeView.class) != null;
  }

  /** The names of what is in it, in order; none when there is no such folder. */
  List<String> names() throws IOException {
    if (!Files.isDirectory(path)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(path)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  /** Takes it away with all that is in it. */
  void delete() throws IOException {
    List<Path> all;
    try (Stream<Path> files = Files.walk(path)) {
      all = files.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path each : all) {
      Files.delete(each);
    }
  }
}

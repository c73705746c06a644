package tallyback.photo;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.function.IntConsumer;
import org.jspecify.annotations.Nullable;
import tallyback.photo.PhotoRefused.Why;

/**
 * A folder of photos, looked through with the folders in it: only heads are read.
 *
 * @param photos what can be used, by their names
 * @param refused what can't, by its name; hidden files are not mentioned at all
 */
public record PhotoFolder(List<PhotoFile> photos, List<Refused> refused) {

  /** More files than a camera's card holds. */
  private static final int MOST_FILES = 100_000;

  /** Cameras nest two or three. */
  private static final int MOST_DEPTH = 10;

  /** Copies the lists. */
  public PhotoFolder {
    photos = List.copyOf(photos);
    refused = List.copyOf(refused);
  }

  /**
   * A file that can't be used.
   *
   * @param name its name below the folder
   * @param why why
   * @param told what is wrong and what to do
   */
  public record Refused(String name, Why why, String told) {}

  /** The folder holds more than can be looked through. */
  public static final class TooManyFiles extends IOException {

    private static final long serialVersionUID = 1L;

    TooManyFiles() {
      super("more than " + MOST_FILES + " files");
    }
  }

  /**
   * Looks through a folder.
   *
   * @param folder the folder; a link to one is followed, links in it are not
   * @param progress told after each file how many were looked at
   * @throws TooManyFiles if it holds too many
   * @throws IOException if it can't be read
   */
  public static PhotoFolder read(Path folder, IntConsumer progress) throws IOException {
    Path real = folder.toRealPath();
    List<Refused> refused = new ArrayList<>();
    List<Path> files = files(real, refused);
    List<PhotoFile> photos = new ArrayList<>();
    int done = 0;
    for (Path file : files) {
      String name = name(real, file);
      try {
        photos.add(PhotoHead.of(file, name));
      } catch (PhotoRefused e) {
        refused.add(new Refused(name, e.why(), e.told()));
      }
      progress.accept(++done);
    }
    refused.sort(Comparator.comparing(Refused::name));
    return new PhotoFolder(photos, refused);
  }

  private static List<Path> files(Path real, List<Refused> refused) throws IOException {
    List<Path> files = new ArrayList<>();
    Files.walkFileTree(
        real,
        EnumSet.noneOf(java.nio.file.FileVisitOption.class),
        MOST_DEPTH,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes about) {
            return !folder.equals(real) && isHidden(folder)
                ? FileVisitResult.SKIP_SUBTREE
                : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes about)
              throws IOException {
            if (!isHidden(file) && !about.isDirectory()) {
              files.add(file);
            }
            if (files.size() > MOST_FILES) {
              throw new TooManyFiles();
            }
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFileFailed(Path file, IOException failed) throws IOException {
            if (file.equals(real)) {
              throw failed;
            }
            refused.add(
                new Refused(name(real, file), Why.UNREADABLE, PhotoText.unreadable(failed)));
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path folder, @Nullable IOException failed)
              throws IOException {
            if (failed != null && folder.equals(real)) {
              throw failed;
            }
            return FileVisitResult.CONTINUE;
          }
        });
    files.sort(Comparator.comparing(file -> name(real, file)));
    return files;
  }

  /** Of macOS, Unix and cameras alike: what they keep for themselves begins with a dot. */
  private static boolean isHidden(Path file) {
    return String.valueOf(file.getFileName()).startsWith(".");
  }

  private static String name(Path folder, Path file) {
    return folder.relativize(file).toString().replace(java.io.File.separatorChar, '/');
  }
}

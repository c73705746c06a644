package tallyback.photo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.photo.PhotoRefused.Why;

/** What of a folder is a photo, and what its head tells. */
class PhotoFolderTest {

  @TempDir Path folder;

  @Test
  void timeWithItsFractionAndOffset() throws IOException {
    Photos.jpeg(
        folder.resolve("a.jpg"),
        64,
        48,
        new Photos.Exif("2026:03:02 09:57:04", "12", "+01:00", 1, true));
    PhotoFile photo = only();
    assertEquals(
        new CameraTime(LocalDateTime.of(2026, 3, 2, 9, 57, 4, 120_000_000), ZoneOffset.ofHours(1)),
        photo.time());
    assertEquals("2026-03-02T09:57:04.120+01:00", time(photo).text());
    assertEquals("2026-03-02T08:57:04.120Z", time(photo).at(ZoneId.of("Asia/Tokyo")).toString());
  }

  @Test
  void timeWithoutOffsetIsMeantInTheShopsZone() throws IOException {
    Photos.jpeg(folder.resolve("a.jpg"), 64, 48, Photos.Exif.at("2026:07:02 09:57:04"));
    assertEquals("2026-07-02T09:57:04", time(only()).text());
    assertEquals("2026-07-02T08:57:04Z", time(only()).at(ZoneId.of("Europe/Dublin")).toString());
  }

  @Test
  void exifWrittenByHandInAPng() throws IOException {
    write("a.png", Photos.png(40, 30, Photos.tiff("2026:03:02 09:57:04", 6)));
    PhotoFile photo = only();
    assertEquals(PhotoFile.Form.PNG, photo.form());
    assertEquals("2026-03-02T09:57:04", time(photo).text());
    assertEquals(6, photo.orientation());
    assertEquals(30, photo.widthPixels());
    assertEquals(40, photo.heightPixels());
  }

  @Test
  void aClockThatWasNeverSetIsNoTime() throws IOException {
    Photos.jpeg(folder.resolve("a.jpg"), 64, 48, Photos.Exif.at("0000:00:00 00:00:00"));
    Photos.jpeg(folder.resolve("b.jpg"), 64, 48, Photos.Exif.at("    :  :     :  :  "));
    Photos.jpeg(folder.resolve("c.jpg"), 64, 48, new Photos.Exif(null, null, null, 1, true));
    for (PhotoFile photo : read().photos()) {
      assertNull(photo.time(), photo.name());
    }
    assertEquals(3, read().photos().size());
  }

  @Test
  void whatItIsGoesByItsContent() throws IOException {
    write("a.txt", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    write("b.jpg", "just words".getBytes(StandardCharsets.UTF_8));
    write("c.jpg", Photos.png(4, 4, null));
    PhotoFolder read = read();
    assertEquals(List.of("a.txt", "c.jpg"), read.photos().stream().map(PhotoFile::name).toList());
    assertEquals(List.of("b.jpg NO_PHOTO"), refused());
  }

  @Test
  void photosInFoldersBelowAreFoundAndHiddenFilesAreNot() throws IOException {
    Files.createDirectories(folder.resolve("DCIM/100"));
    Files.createDirectories(folder.resolve(".small"));
    write("DCIM/100/a.jpg", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    write(".small/a.jpg", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    write(".hidden.jpg", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    assertEquals("DCIM/100/a.jpg", only().name());
    assertEquals(List.of(), refused());
  }

  @Test
  void aSmallFileThatUnpacksToAHugePictureIsRefusedBeforeItIsUnpacked() throws IOException {
    byte[] bomb = Photos.png(60_000, 60_000, null);
    assertTrue(bomb.length < 500_000, () -> bomb.length + " bytes");
    write("bomb.png", bomb);
    PhotoFolder.Refused refused = read().refused().get(0);
    assertEquals(Why.TOO_LARGE, refused.why());
    assertEquals(
        "says that it has 60000 by 60000 pixels, more than can be unpacked"
            + " safely; export it smaller",
        refused.told());
  }

  @Test
  void damageIsTold() throws IOException {
    byte[] photo = Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04"));
    write("cut in its head.jpg", Arrays.copyOf(photo, 60));
    write("empty.jpg", new byte[0]);
    byte[] wild = photo.clone();
    wild[2] = 0x12;
    write("no marker.jpg", wild);
    write("png cut.png", Arrays.copyOf(Photos.png(40, 30, null), 50));
    assertEquals(
        List.of(
            "cut in its head.jpg BROKEN",
            "empty.jpg BROKEN",
            "no marker.jpg NO_PHOTO",
            "png cut.png BROKEN"),
        refused());
  }

  @Test
  void whateverByteIsWrongNothingButARefusalComes() throws IOException {
    byte[] photo = Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04"));
    java.util.Random chance = new java.util.Random(7);
    for (int turn = 0; turn < 400; turn++) {
      byte[] wild = photo.clone();
      for (int i = 0; i < 4; i++) {
        wild[chance.nextInt(wild.length)] = (byte) chance.nextInt(256);
      }
      Path file = write("wild.jpg", wild);
      try {
        PhotoFile head = PhotoHead.of(file, "wild.jpg");
        assertTrue(ReducedCopy.of(head).length > 0);
      } catch (PhotoRefused told) {
        assertTrue(told.told().contains(";") || told.why() == Why.NO_PHOTO, told.told());
      }
    }
  }

  @Test
  void otherFormsSayWhatToDo() throws IOException {
    byte[] heic = new byte[400];
    byte[] head = "\0\0\0\u0018ftypheic\0\0\0\0mif1heic".getBytes(StandardCharsets.ISO_8859_1);
    System.arraycopy(head, 0, heic, 0, head.length);
    byte[] exif = Photos.tiff("2026:03:02 09:57:04", 1);
    System.arraycopy("Exif\0\0".getBytes(StandardCharsets.ISO_8859_1), 0, heic, 100, 6);
    System.arraycopy(exif, 0, heic, 106, exif.length);
    write("a.heic", heic);
    write("b.webp", "RIFF\0\0\0\0WEBPVP8 ".getBytes(StandardCharsets.ISO_8859_1));
    write("c.dng", "II*\0\u0008\0\0\0".getBytes(StandardCharsets.ISO_8859_1));
    write("d.mp4", "\0\0\0\u0018ftypisom\0\0\0\0".getBytes(StandardCharsets.ISO_8859_1));
    assertEquals(
        "is HEIC, taken 2026-03-02 09:57:04 by its camera, which can't be shown here; export it as"
            + " JPEG, with its date",
        read().refused().get(0).told());
    assertEquals(
        List.of("a.heic OTHER_FORM", "b.webp OTHER_FORM", "c.dng OTHER_FORM", "d.mp4 NO_PHOTO"),
        refused());
  }

  @Test
  void linksAreNotFollowed() throws IOException {
    Path elsewhere = Files.createDirectory(folder.resolve("x"));
    Path photo =
        Photos.jpeg(elsewhere.resolve("a.jpg"), 64, 48, Photos.Exif.at("2026:03:02 09:57:04"));
    Path looked = Files.createDirectory(folder.resolve("y"));
    Files.createSymbolicLink(looked.resolve("link.jpg"), photo);
    Files.createSymbolicLink(looked.resolve("folder"), elsewhere);
    PhotoFolder read = PhotoFolder.read(looked, done -> {});
    assertEquals(List.of(), read.photos());
    assertEquals(
        List.of("folder LINK", "link.jpg LINK"),
        read.refused().stream().map(each -> each.name() + " " + each.why()).toList());
  }

  @Test
  void whatMayNotBeReadIsTold() throws IOException {
    Path file = write("a.jpg", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    assertTrue(file.toFile().setReadable(false));
    // Whoever may read everything is told of nothing.
    assertEquals(Files.isReadable(file) ? List.of() : List.of("a.jpg UNREADABLE"), refused());
  }

  @Test
  void aFileIsNoFolder() throws IOException {
    Path file = write("a.jpg", Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04")));
    assertThrows(IOException.class, () -> listed(file));
    assertThrows(IOException.class, () -> listed(folder.resolve("gone")));
  }

  private static void listed(Path path) throws IOException {
    if (!Files.isDirectory(path)) {
      throw new NotDirectoryException(path.toString());
    }
    assertEquals(0, PhotoFolder.read(path, done -> {}).photos().size());
  }

  @Test
  void headsDontChangeTheOriginals() throws Exception {
    byte[] bytes = Photos.jpeg(64, 48, Photos.Exif.at("2026:03:02 09:57:04"));
    Path file = write("a.jpg", bytes);
    var before = Files.getLastModifiedTime(file);
    assertTrue(ReducedCopy.of(only()).length > 0);
    assertArrayEquals(bytes, Files.readAllBytes(file));
    assertEquals(before, Files.getLastModifiedTime(file));
  }

  private Path write(String name, byte[] bytes) throws IOException {
    return Files.write(folder.resolve(name), bytes);
  }

  private PhotoFolder read() throws IOException {
    return PhotoFolder.read(folder, done -> {});
  }

  private List<String> refused() throws IOException {
    return read().refused().stream().map(each -> each.name() + " " + each.why()).toList();
  }

  private PhotoFile only() throws IOException {
    PhotoFolder read = read();
    assertEquals(1, read.photos().size(), () -> read.refused().toString());
    return read.photos().get(0);
  }

  private static CameraTime time(PhotoFile photo) {
    CameraTime time = photo.time();
    if (time == null) {
      throw new AssertionError(photo.name() + " has no time");
    }
    return time;
  }
}

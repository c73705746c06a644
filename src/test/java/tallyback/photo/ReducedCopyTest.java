package tallyback.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.drew.imaging.ImageMetadataReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.GpsDirectory;
import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Objects;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.photo.PhotoRefused.Why;

/** The copy that is kept: upright, small, and nothing in it but the picture. */
class ReducedCopyTest {

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6, 7, 8})
  void isUprightHoweverTheCameraWasHeld(int orientation) throws Exception {
    Path file =
        Photos.jpeg(
            folder.resolve("a.jpg"),
            600,
            400,
            new Photos.Exif("2026:03:02 09:57:04", null, null, orientation, false));
    PhotoFile head = PhotoHead.of(file, "a.jpg");
    assertEquals(600, head.widthPixels());
    assertEquals(400, head.heightPixels());
    BufferedImage copy = copy(file);
    assertEquals(600, copy.getWidth());
    assertEquals(400, copy.getHeight());
    assertCorners(copy);
  }

  @Test
  void theLongSideIsShortened() throws Exception {
    for (int[] size : new int[][] {{4000, 3000}, {3000, 4000}, {1300, 900}, {9000, 300}}) {
      Path file =
          Photos.jpeg(
              folder.resolve("a.jpg"), size[0], size[1], Photos.Exif.at("2026:03:02 09:57:04"));
      BufferedImage copy = copy(file);
      assertEquals(ReducedCopy.LONG_SIDE, Math.max(copy.getWidth(), copy.getHeight()));
      double wanted = (double) size[0] / size[1];
      double found = (double) copy.getWidth() / copy.getHeight();
      assertEquals(1, found / wanted, 0.02);
      assertCorners(copy);
    }
  }

  @Test
  void aSmallPhotoKeepsItsSize() throws Exception {
    Path file =
        Photos.jpeg(folder.resolve("a.jpg"), 320, 200, Photos.Exif.at("2026:03:02 09:57:04"));
    assertEquals(320, copy(file).getWidth());
  }

  @Test
  void nothingOfWhatTheCameraWroteIsInIt() throws Exception {
    byte[] original = Photos.jpeg(600, 400, Photos.Exif.at("2026:03:02 09:57:04"));
    Metadata before = ImageMetadataReader.readMetadata(new ByteArrayInputStream(original));
    GpsDirectory place = Objects.requireNonNull(before.getFirstDirectoryOfType(GpsDirectory.class));
    assertEquals(
        52.6638,
        Objects.requireNonNull(place.getGeoLocation()).getLatitude(),
        1e-4,
        "the test's photo has one");
    Path file = Files.write(folder.resolve("a.jpg"), original);
    byte[] copy = ReducedCopy.of(PhotoHead.of(file, "a.jpg"));
    ReducedCopyChecks.assertBare(copy);
  }

  @Test
  void aPhotoThatIsCutOffIsRefusedAndNotShownHalf() throws Exception {
    byte[] whole = Photos.jpeg(1600, 1200, Photos.Exif.at("2026:03:02 09:57:04"));
    Path file = Files.write(folder.resolve("a.jpg"), Arrays.copyOf(whole, whole.length * 2 / 3));
    PhotoFile head = PhotoHead.of(file, "a.jpg");
    PhotoRefused refused = assertThrows(PhotoRefused.class, () -> ReducedCopy.of(head));
    assertEquals(Why.BROKEN, refused.why());
    assertEquals("ends too early; copy it from the camera again", refused.told());
  }

  @Test
  void aPngThatIsCutOffInsideIsRefused() throws Exception {
    byte[] whole = Photos.png(900, 700, null);
    byte[] holed = whole.clone();
    Arrays.fill(holed, 45, holed.length - 16, (byte) 0);
    Path file = Files.write(folder.resolve("a.png"), holed);
    PhotoFile head = PhotoHead.of(file, "a.png");
    assertEquals(Why.BROKEN, assertThrows(PhotoRefused.class, () -> ReducedCopy.of(head)).why());
  }

  /** 14,000 by 14,000 unpacked would be 784 MB; it is thinned out while it is read. */
  @Test
  void aLargePictureIsThinnedOutWhileItIsRead() throws Exception {
    byte[] large = Photos.png(14_000, 14_000, null);
    assertTrue(large.length < 100_000, () -> large.length + " bytes");
    BufferedImage copy = copy(Files.write(folder.resolve("a.png"), large));
    assertEquals(ReducedCopy.LONG_SIDE, copy.getWidth());
    assertEquals(ReducedCopy.LONG_SIDE, copy.getHeight());
  }

  private static BufferedImage copy(Path file) throws IOException, PhotoRefused {
    byte[] copy = ReducedCopy.of(PhotoHead.of(file, file.toString()));
    return ImageIO.read(new ByteArrayInputStream(copy));
  }

  private static void assertCorners(BufferedImage picture) {
    int x = picture.getWidth() / 8;
    int y = picture.getHeight() / 8;
    int[][] at = {
      {x, y},
      {picture.getWidth() - x, y},
      {x, picture.getHeight() - y},
      {picture.getWidth() - x, picture.getHeight() - y}
    };
    for (int corner = 0; corner < 4; corner++) {
      Color found = new Color(picture.getRGB(at[corner][0], at[corner][1]));
      Color wanted = Photos.CORNERS[corner];
      int apart =
          Math.abs(found.getRed() - wanted.getRed())
              + Math.abs(found.getGreen() - wanted.getGreen())
              + Math.abs(found.getBlue() - wanted.getBlue());
      assertTrue(apart < 60, "corner " + corner + ": " + found + " for " + wanted);
    }
  }
}

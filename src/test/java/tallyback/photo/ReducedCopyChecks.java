package tallyback.photo;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.drew.imaging.ImageMetadataReader;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifDirectoryBase;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;

/** What must hold of every copy, wherever it turns up. */
public final class ReducedCopyChecks {

  private ReducedCopyChecks() {}

  /** No directory of Exif, of a place or of anything but the picture itself. */
  public static void assertBare(byte[] jpeg) throws Exception {
    Metadata read = ImageMetadataReader.readMetadata(new ByteArrayInputStream(jpeg));
    for (Directory each : read.getDirectories()) {
      assertFalse(each instanceof ExifDirectoryBase, each::getName);
      assertTrue(
          each.getName().matches("JPEG|JFIF|Huffman|File Type"),
          () -> "unexpected " + each.getName());
    }
    String text = new String(jpeg, StandardCharsets.ISO_8859_1);
    assertFalse(text.contains("Exif"), "no Exif data");
    assertFalse(text.contains("Invented Camera Works"), "no maker");
    assertFalse(text.contains("2026:03:02"), "no time");
  }
}

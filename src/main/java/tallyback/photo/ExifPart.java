package tallyback.photo;

import com.drew.imaging.tiff.TiffProcessingException;
import com.drew.imaging.tiff.TiffReader;
import com.drew.lang.ByteArrayReader;
import com.drew.lang.RandomAccessReader;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifDirectoryBase;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import com.drew.metadata.exif.ExifTiffHandler;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What is needed of the Exif data of a photo (CIPA DC-008, Exif 2.32): when it was taken and which
 * way is up. The date of the last change (DateTime) is no time of taking and not looked at.
 *
 * @param time when it was taken, or null
 * @param orientation 1 to 8
 */
record ExifPart(@Nullable CameraTime time, int orientation) {

  /** Of a photo without such data. */
  static final ExifPart NONE = new ExifPart(null, 1);

  private static final Pattern TIME =
      Pattern.compile(
          "(\\d{4})[:\\-/.](\\d{2})[:\\-/.](\\d{2})[ T](\\d{2}):(\\d{2}):(\\d{2})[\\s\\x00]*");

  private static final Pattern OFFSET = Pattern.compile("([+-])(\\d{2}):(\\d{2})[\\s\\x00]*");
  private static final Pattern FRACTION = Pattern.compile("(\\d{1,9})[\\s\\x00]*");

  /**
   * Reads it. Damage in it is no fault: then it tells nothing.
   *
   * @param tiff from its byte order mark on
   */
  static ExifPart of(byte[] tiff) {
    Metadata read = new Metadata();
    try {
      new TiffReader().processTiff(new ByteArrayReader(tiff), new OnlyTimes(read), 0);
    } catch (TiffProcessingException | IOException | RuntimeException damaged) {
      // What was read before the damage counts: times and orientation stand in front.
      return from(read);
    }
    return from(read);
  }

  private static ExifPart from(Metadata read) {
    ExifIFD0Directory first = read.getFirstDirectoryOfType(ExifIFD0Directory.class);
    ExifSubIFDDirectory exif = read.getFirstDirectoryOfType(ExifSubIFDDirectory.class);
    CameraTime time =
        exif == null
            ? null
            : time(
                exif,
                ExifDirectoryBase.TAG_DATETIME_ORIGINAL,
                ExifDirectoryBase.TAG_SUBSECOND_TIME_ORIGINAL,
                ExifDirectoryBase.TAG_TIME_ZONE_ORIGINAL);
    if (time == null && exif != null) {
      time =
          time(
              exif,
              ExifDirectoryBase.TAG_DATETIME_DIGITIZED,
              ExifDirectoryBase.TAG_SUBSECOND_TIME_DIGITIZED,
              ExifDirectoryBase.TAG_TIME_ZONE_DIGITIZED);
    }
    Integer way = first == null ? null : first.getInteger(ExifDirectoryBase.TAG_ORIENTATION);
    return new ExifPart(time, way == null || way < 1 || way > 8 ? 1 : way);
  }

  private static @Nullable CameraTime time(
      Directory exif, int timeTag, int fractionTag, int offsetTag) {
    String written = exif.getString(timeTag);
    Matcher part = TIME.matcher(written == null ? "" : written);
    if (!part.matches()) {
      return null;
    }
    try {
      LocalDateTime shown =
          LocalDateTime.of(
              number(part, 1),
              number(part, 2),
              number(part, 3),
              number(part, 4),
              number(part, 5),
              number(part, 6),
              millis(exif.getString(fractionTag)) * 1_000_000);
      return new CameraTime(shown, offset(exif.getString(offsetTag)));
    } catch (DateTimeException notSet) {
      // A clock that was never set: 0000:00:00 00:00:00.
      return null;
    }
  }

  private static int number(Matcher part, int group) {
    return Integer.parseInt(part.group(group));
  }

  private static int millis(@Nullable String fraction) {
    Matcher digits = FRACTION.matcher(fraction == null ? "" : fraction);
    return digits.matches() ? Integer.parseInt((digits.group(1) + "00").substring(0, 3)) : 0;
  }

  private static @Nullable ZoneOffset offset(@Nullable String written) {
    Matcher part = OFFSET.matcher(written == null ? "" : written);
    if (!part.matches()) {
      return null;
    }
    int sign = part.group(1).equals("-") ? -1 : 1;
    try {
      return ZoneOffset.ofHoursMinutes(sign * number(part, 2), sign * number(part, 3));
    } catch (DateTimeException none) {
      return null;
    }
  }

  /**
   * Enters nothing but the directory of the times: no place, no maker's notes, no small pictures,
   * nothing packed into other forms.
   */
  private static final class OnlyTimes extends ExifTiffHandler {

    OnlyTimes(Metadata into) {
      super(into, null, 0);
    }

    @Override
    public boolean tryEnterSubIfd(int tagId) {
      return tagId == ExifIFD0Directory.TAG_EXIF_SUB_IFD_OFFSET && super.tryEnterSubIfd(tagId);
    }

    @Override
    public boolean hasFollowerIfd() {
      return false;
    }

    @Override
    public boolean customProcessTag(
        int tagOffset,
        Set<Integer> processedIfdOffsets,
        int tiffHeaderOffset,
        RandomAccessReader reader,
        int tagId,
        int byteCount) {
      return false;
    }
  }
}

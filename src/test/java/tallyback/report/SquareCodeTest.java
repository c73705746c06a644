package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The square code, read back by the library's own reader from the letters that draw it. */
public class SquareCodeTest {

  private static final String INK = "\u001b[38;5;16;48;5;231m";
  private static final int MODULE = 6;

  /** What the letters of a code say. */
  public static String read(List<String> lines) throws Exception {
    int width = lines.get(0).length() * MODULE;
    int height = lines.size() * 2 * MODULE;
    int[] pixels = new int[width * height];
    for (int y = 0; y < height; y++) {
      String line = lines.get(y / (2 * MODULE));
      boolean upper = y / MODULE % 2 == 0;
      for (int x = 0; x < width; x++) {
        char letter = line.charAt(x / MODULE);
        boolean dark = letter == '\u2588' || letter == (upper ? '\u2580' : '\u2584');
        pixels[y * width + x] = dark ? 0x000000 : 0xffffff;
      }
    }
    return new QRCodeReader()
        .decode(
            new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels))))
        .getText();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "https://192.168.1.20:7117/pair#01234567",
        "https://10.0.0.2/pair#99999999",
        "https://[fd12:3456:789a:bcde:f012:3456:789a:bcde]:65535/pair#00000000"
      })
  void canBeReadBack(String text) throws Exception {
    List<String> plain = SquareCode.lines(text, false);
    assertEquals(text, read(plain));
    List<String> coloured = SquareCode.lines(text, true);
    assertTrue(
        coloured.stream().allMatch(line -> line.startsWith(INK) && line.endsWith("\u001b[0m")));
    assertEquals(
        plain, coloured.stream().map(line -> line.replaceAll("\u001b\\[[0-9;]*m", "")).toList());
  }

  /** The picture's own modules, drawn as a browser does. */
  @Test
  void canBeReadBackFromThePictureToo() throws Exception {
    String text = "https://192.168.1.20:7117/plans?plan=own%3Aoil-of-the-old-baler.yaml";
    String svg = SquareCode.svg(text);
    Matcher box = Pattern.compile("viewBox=\"0 0 ([0-9]+) ([0-9]+)\"").matcher(svg);
    assertTrue(box.find(), svg);
    int side = Integer.parseInt(box.group(1));
    boolean[] dark = new boolean[side * side];
    Matcher module = Pattern.compile("M([0-9]+) ([0-9]+)h1v1h-1z").matcher(svg);
    while (module.find()) {
      dark[Integer.parseInt(module.group(2)) * side + Integer.parseInt(module.group(1))] = true;
    }
    List<String> lines = new ArrayList<>();
    for (int y = 0; y < side; y += 2) {
      StringBuilder line = new StringBuilder();
      for (int x = 0; x < side; x++) {
        boolean upper = dark[y * side + x];
        boolean lower = y + 1 < side && dark[(y + 1) * side + x];
        line.append(upper ? lower ? '\u2588' : '\u2580' : lower ? '\u2584' : ' ');
      }
      lines.add(line.toString());
    }
    assertEquals(text, read(lines));
  }

  @Test
  void canBeReadBackFromThePictureForPaper() throws Exception {
    String seal = "job-1/165/3f2a-91c4-0b77-e2d5-86aa-4c10";
    String address = SquareCode.address(seal);
    assertTrue(address.startsWith("data:image/png;base64,"), address);
    BufferedImage picture =
        ImageIO.read(
            new ByteArrayInputStream(
                Base64.getDecoder().decode(address.substring(address.indexOf(',') + 1))));
    int side = picture.getWidth();
    int[] pixels = picture.getRGB(0, 0, side, side, null, 0, side);
    assertEquals(
        seal,
        new QRCodeReader()
            .decode(
                new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(side, side, pixels))))
            .getText());
  }

  @ParameterizedTest
  @ValueSource(strings = "https://192.168.1.20:7117/pair#01234567")
  void hasFourQuietModulesAroundAndFitsAnOrdinaryTerminal(String text) {
    List<String> lines = SquareCode.lines(text, false);
    int width = lines.get(0).length();
    assertTrue(width <= 80 && lines.size() <= 24, width + " by " + lines.size());
    assertTrue(lines.get(0).isBlank() && lines.get(1).isBlank());
    assertTrue(lines.get(lines.size() - 1).isBlank() && lines.get(lines.size() - 2).isBlank());
    for (String line : lines) {
      assertEquals(width, line.length());
      assertTrue(line.substring(0, 4).isBlank() && line.substring(width - 4).isBlank(), line);
    }
  }
}

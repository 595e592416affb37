package tarnish.controller.service;

import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;

/** Writes a picture with its commonest colours only: a page has few, and the file becomes small. */
public final class SmallPng {
  private static final int COLOURS = 24;

  /** Square of a distance between colours that nobody sees. */
  private static final int NEAR = 500;

  private SmallPng() {}

  public static void write(byte[] png, Path file) throws IOException {
    write(ImageIO.read(new ByteArrayInputStream(png)), file);
  }

  public static void write(BufferedImage image, Path file) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    Map<Integer, Integer> counts = new HashMap<>();
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        counts.merge(image.getRGB(x, y) & 0xffffff, 1, Integer::sum);
      }
    }
    List<Integer> palette = palette(counts);
    BufferedImage small =
        new BufferedImage(
            image.getWidth(),
            image.getHeight(),
            BufferedImage.TYPE_BYTE_INDEXED,
            new IndexColorModel(
                8, palette.size(), palette.stream().mapToInt(c -> c).toArray(), 0, false, -1, 0));
    Map<Integer, Integer> nearest = new HashMap<>();
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        int colour = image.getRGB(x, y) & 0xffffff;
        int index = nearest.computeIfAbsent(colour, c -> nearest(c, palette));
        small.getRaster().setSample(x, y, 0, index);
      }
    }
    ImageIO.write(small, "png", file.toFile());
  }

  /**
   * The commonest colours, but none so near to a commoner one that nobody could tell them apart.
   */
  private static List<Integer> palette(Map<Integer, Integer> counts) {
    List<Integer> palette = new ArrayList<>();
    List<Map.Entry<Integer, Integer>> commonest = new ArrayList<>(counts.entrySet());
    commonest.sort(Map.Entry.comparingByValue(Comparator.reverseOrder()));
    for (Map.Entry<Integer, Integer> each : commonest) {
      int colour = each.getKey();
      if (palette.size() < COLOURS
          && palette.stream().noneMatch(known -> distance(known, colour) < NEAR)) {
        palette.add(colour);
      }
    }
    return palette;
  }

  private static int nearest(int colour, List<Integer> palette) {
    int best = 0;
    for (int i = 1; i < palette.size(); i++) {
      if (distance(colour, palette.get(i)) < distance(colour, palette.get(best))) {
        best = i;
      }
    }
    return best;
  }

  private static int distance(int a, int b) {
    int red = (a >> 16 & 255) - (b >> 16 & 255);
    int green = (a >> 8 & 255) - (b >> 8 & 255);
    int blue = (a & 255) - (b & 255);
    return red * red + green * green + blue * blue;
  }
}

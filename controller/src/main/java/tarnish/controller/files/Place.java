package tarnish.controller.files;

/** A place in a file; line and column count from 1, in characters. */
record Place(int line, int column) implements Comparable<Place> {
  static final Place START = new Place(1, 1);

  @Override
  public int compareTo(Place other) {
    return line != other.line
        ? Integer.compare(line, other.line)
        : Integer.compare(column, other.column);
  }
}

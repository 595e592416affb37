package tarnish.controller.journal;

import java.nio.file.Path;
import java.sql.SQLException;
import org.sqlite.SQLiteException;

/** The record cannot be written or read. The message says what to do about it. */
public final class JournalException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** What kind of trouble it is. */
  public enum Trouble {
    DISK_FULL("the disk is full. Free some space; what was recorded before is kept"),
    READ_ONLY(
        "the file or its folder is write-protected. Make both writable for the user that runs"
            + " Tarnish"),
    LOCKED("another program holds the file. Close that program"),
    DAMAGED("the file is damaged. Restart Tarnish: it sets the damaged file aside and begins anew"),
    DAMAGED_COPY("the file is damaged. Take another copy of it"),
    EXISTS("there is such a file already. Take another name"),
    NOT_A_RECORD("it is not a record of Tarnish, or it is missing"),
    DEVICE("the disk does not answer properly. Check the card or drive and its connection"),
    TOO_NEW("it was written by a newer version of Tarnish. Install that version to use it"),
    OTHER("the database refused");

    private final String words;

    Trouble(String words) {
      this.words = words;
    }
  }

  private final Trouble trouble;

  JournalException(Trouble trouble, String doing) {
    this(trouble, doing, null);
  }

  JournalException(Trouble trouble, String doing, Throwable cause) {
    super(doing + ": " + trouble.words + (trouble == Trouble.OTHER ? reason(cause) : ""), cause);
    this.trouble = trouble;
  }

  public Trouble trouble() {
    return trouble;
  }

  static JournalException of(String doing, Path file, SQLException e) {
    return new JournalException(troubleOf(e), doing + " (" + file + ")", e);
  }

  static JournalException damaged(String what) {
    return new JournalException(Trouble.DAMAGED, "The record cannot be read, " + what);
  }

  /** Result codes as in the SQLite documentation, "Result and Error Codes". */
  static Trouble troubleOf(SQLException e) {
    int code = e instanceof SQLiteException known ? known.getResultCode().code : e.getErrorCode();
    return switch (code & 0xff) {
      case 13 -> Trouble.DISK_FULL;
      case 3, 8, 14, 23 -> Trouble.READ_ONLY;
      case 5, 6, 15 -> Trouble.LOCKED;
      case 11, 26 -> Trouble.DAMAGED;
      case 10 -> Trouble.DEVICE;
      default -> Trouble.OTHER;
    };
  }

  private static String reason(Throwable cause) {
    return cause == null ? "" : " (" + cause.getMessage() + ")";
  }
}

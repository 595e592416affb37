package tarnish.controller.control;

import java.util.TreeMap;

/**
 * Takes what only goes into the record: notes, photos, corrections, answers before the start,
 * damage of the record.
 */
final class NoteDesk {
  private NoteDesk() {}

  /** Whether the request was one of these. */
  static boolean take(Request request, TickWork work) {
    if (request instanceof Request.Note note) {
      enter(note, note.remark(), note.remark(), work);
    } else if (request instanceof Request.Photo photo) {
      enter(
          photo,
          "photo of "
              + (photo.bytes() + 1023) / 1024
              + " KiB, SHA-256 "
              + photo.sha256()
              + ". "
              + photo.remark(),
          photo.sha256(),
          work);
    } else if (request instanceof Request.Correction correction) {
      correct(correction, work);
    } else if (request instanceof Request.Preflight preflight) {
      preflight(preflight, work);
    } else if (request instanceof Request.RecordDamaged damaged) {
      work.event(new Event.RecordDamaged(damaged.noticedAt(), damaged.what()));
    } else {
      return false;
    }
    return true;
  }

  private static void correct(Request.Correction correction, TickWork work) {
    if (correction.ofMillis() < 0 || correction.ofMillis() > work.lastMillis) {
      refuse(correction, "There is no entry of that time to correct.", work);
      return;
    }
    String what =
        "corrects the entry of "
            + Words.duration(correction.ofMillis() / 1000.0)
            + " into the batch, which stays as it is ("
            + correction.former()
            + "): "
            + correction.remark();
    enter(correction, what, correction.remark(), work);
  }

  private static void enter(Request request, String what, String words, TickWork work) {
    if (work.phase == BatchState.IDLE || work.phase.isFinal()) {
      refuse(request, "No batch is running.", work);
    } else if (words.isBlank()) {
      refuse(request, "The entry says nothing.", work);
    } else {
      work.event(new Event.LedgerEntered(request.by(), what.strip(), Accounts.oxygenPerUnit(work)));
    }
  }

  private static void preflight(Request.Preflight preflight, TickWork work) {
    if (work.phase != BatchState.IDLE) {
      work.event(
          new Event.RequestRefused(
              preflight.by(), "list before the start", "The batch has been started."));
      return;
    }
    work.event(
        new Event.PreflightAnswered(
            preflight.by(), "recipe", "SHA-256 " + preflight.recipeSha256()));
    // Sorted, because the order of an immutable map differs from run to run.
    new TreeMap<>(preflight.answers())
        .forEach(
            (item, answer) ->
                work.event(new Event.PreflightAnswered(preflight.by(), item, answer)));
  }

  private static void refuse(Request request, String why, TickWork work) {
    work.event(new Event.RequestRefused(request.by(), "ledger", why));
  }
}

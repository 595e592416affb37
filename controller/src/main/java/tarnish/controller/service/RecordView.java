package tarnish.controller.service;

import java.util.List;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.NoteLine;

/** What happened to the record itself, as the page sees it: the newest note first. */
record RecordView(String remark, List<NoteLine> notes) {
  private static final int NOTES_MAX = 20;

  static RecordView of(Journal journal) {
    return new RecordView(journal.remark(), journal.notes(NOTES_MAX));
  }
}

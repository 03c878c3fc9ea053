"""Reads the calendar and the feed with parsers of others (PyPI icalendar, vobject, feedparser).
Never with a parser of ours. `cargo test --test plan` leaves the files in target/tmp/plan first.
"""

import datetime
import pathlib
import sys
import unittest

import feedparser
import icalendar
import vobject

LEFT = pathlib.Path(__file__).parent.parent / "target" / "tmp" / "plan"
TRAINING_DAYS = {1, 3, 5}  # Tuesday, Thursday, Saturday, as the starter cycle names them


def events(name):
    calendar = icalendar.Calendar.from_ical((LEFT / name).read_bytes())
    return calendar, calendar.walk("VEVENT")


class CalendarOfOthers(unittest.TestCase):
    def test_three_sessions_a_week_for_six_weeks(self):
        calendar, found = events("cycle.ics")
        self.assertEqual(calendar["VERSION"], "2.0")
        self.assertEqual(len(found), 18)
        starts = [event.decoded("DTSTART") for event in found]
        self.assertEqual(starts[0], datetime.date(2027, 1, 5))
        self.assertEqual(starts, sorted(set(starts)))
        self.assertEqual({start.weekday() for start in starts}, TRAINING_DAYS)

    def test_every_event_is_whole(self):
        for name in ("cycle.ics", "odd.ics"):
            _, found = events(name)
            self.assertTrue(found)
            self.assertEqual(len({str(event["UID"]) for event in found}), len(found))
            for event in found:
                self.assertEqual(event.errors, [])
                self.assertLess(event.decoded("DTSTART"), event.decoded("DTEND"))
                self.assertIsInstance(event.decoded("DTSTAMP"), datetime.datetime)
                self.assertTrue(str(event["DESCRIPTION"]).strip())

    def test_the_words_come_back_as_they_were_written(self):
        _, found = events("odd.ics")
        self.assertEqual(str(found[0]["SUMMARY"]), "Ärme; \\, und " + "💪" * 20 + ", week 1")

    def test_two_parsers_agree(self):
        _, one = events("cycle.ics")
        other = vobject.readOne((LEFT / "cycle.ics").read_text(encoding="utf-8")).vevent_list
        told = lambda start, summary, words: (start, str(summary), str(words))
        self.assertEqual(
            [told(e.decoded("DTSTART"), e["SUMMARY"], e["DESCRIPTION"]) for e in one],
            [told(e.dtstart.value, e.summary.value, e.description.value) for e in other],
        )


class FeedOfOthers(unittest.TestCase):
    def test_a_feed_of_sessions(self):
        for name, sessions in (("feed.xml", 3), ("odd.xml", 2)):
            feed = feedparser.parse((LEFT / name).read_bytes())
            self.assertFalse(feed.bozo, feed.get("bozo_exception"))
            self.assertEqual(feed.version, "atom10")
            self.assertEqual(len(feed.entries), sessions)
            ids = [feed.feed.id] + [entry.id for entry in feed.entries]
            self.assertEqual(len(set(ids)), len(ids))
            newest = max(entry.updated_parsed for entry in feed.entries)
            self.assertEqual(feed.feed.updated_parsed, newest)
            self.assertTrue(all(entry.content[0].value for entry in feed.entries))
            self.assertTrue(feed.feed.author)

    def test_odd_words_come_back(self):
        feed = feedparser.parse((LEFT / "odd.xml").read_bytes(), sanitize_html=False)
        odd = next(entry for entry in feed.entries if entry.id.endswith("/odd"))
        self.assertEqual(odd.summary, "<b>&amp; 'so'")
        self.assertEqual(odd.updated, "2026-11-20T00:00:00Z")


if __name__ == "__main__":
    result = unittest.main(exit=False, verbosity=2).result
    bad = len(result.failures) + len(result.errors)
    # The line that tests/all counts.
    print(f"test result: {'FAILED' if bad else 'ok'}. {result.testsRun - bad} passed; {bad} failed;")
    sys.exit(bool(bad))

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

# What RFC 5545, 3.1 says of a line: 75 octets without its break.
LONGEST_LINE = 75
PUBLISHED = ("published/calendars/six-weeks-push-and-pull.ics", "published/feed.xml")
ROOT = pathlib.Path(__file__).parent.parent
LEFT = ROOT / "target" / "tmp" / "plan"
# As many as the starter library has files: the feed holds an entry for each.
SESSIONS = len(list((ROOT / "content" / "sessions").glob("*.yaml")))
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

    def test_reminders_are_read_as_such(self):
        _, found = events("reminders.ics")
        for event in found:
            alarms = event.walk("VALARM")
            self.assertEqual([str(alarm["ACTION"]) for alarm in alarms], ["DISPLAY"])
            self.assertEqual(alarms[0].decoded("TRIGGER"), datetime.timedelta(hours=7))

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


class WhatABuildPublishes(unittest.TestCase):
    """The very files that stand on the site, not those of the room `plan` alone."""

    def test_a_calendar_that_can_be_subscribed_to(self):
        raw = (LEFT / PUBLISHED[0]).read_bytes()
        self.assertTrue(all(len(line) <= LONGEST_LINE for line in raw.split(b"\r\n")))
        self.assertNotIn(b"\n", raw.replace(b"\r\n", b""))
        calendar, found = events(PUBLISHED[0])
        self.assertEqual(calendar.errors, [])
        self.assertEqual(calendar.decoded("REFRESH-INTERVAL"), datetime.timedelta(days=1))
        # NAME is text (RFC 7986, 5.1); icalendar 7 gives it back as it stands, vobject reads it.
        named = vobject.readOne(raw.decode("utf-8")).contents["name"][0].value
        self.assertEqual(named, "Thornmere Hall: Six weeks, push and pull")
        self.assertEqual(len(found), 18)
        for event in found:
            self.assertEqual(event.errors, [])
            self.assertRegex(str(event["URL"]), r"^https://thornmere-hall\.example/sessions/[a-z-]+\.html$")
            # The session's own day: no clock, so the same content gives the same stamp.
            stamp = event.decoded("DTSTAMP")
            self.assertEqual(stamp, datetime.datetime(2026, 11, 25, tzinfo=datetime.timezone.utc))
        self.assertEqual(len({str(event["UID"]) for event in found}), 18)
        # Written as a parser of others writes it again, nothing is lost.
        again = icalendar.Calendar.from_ical(calendar.to_ical())
        told = lambda one: [(e["UID"], e["SUMMARY"], e["DESCRIPTION"]) for e in one.walk("VEVENT")]
        self.assertEqual(told(again), told(calendar))

    def test_a_feed_whose_entries_lead_to_sessions(self):
        feed = feedparser.parse((LEFT / PUBLISHED[1]).read_bytes())
        self.assertFalse(feed.bozo, feed.get("bozo_exception"))
        self.assertEqual(feed.version, "atom10")
        own = [link.href for link in feed.feed.links if link.rel == "self"]
        self.assertEqual(own, ["https://thornmere-hall.example/feed.xml"])
        self.assertGreater(SESSIONS, 0)
        self.assertEqual(len(feed.entries), SESSIONS)
        for entry in feed.entries:
            name = entry.id.rsplit("/", 1)[1]
            self.assertEqual(entry.link, f"https://thornmere-hall.example/sessions/{name}.html")

    def test_both_can_be_seen_to_be_wrong(self):
        broken = (LEFT / PUBLISHED[0]).read_bytes().replace(b"DTSTART;VALUE=DATE:20270105", b"DTSTART;VALUE=DATE:2027")
        bad = icalendar.Calendar.from_ical(broken).walk("VEVENT")
        self.assertTrue(any(event.errors for event in bad))
        half = (LEFT / PUBLISHED[1]).read_bytes().replace(b"</entry>", b"", 1)
        self.assertTrue(feedparser.parse(half).bozo)


class FeedOfOthers(unittest.TestCase):
    def test_a_feed_of_sessions(self):
        for name, sessions in (("feed.xml", SESSIONS), ("odd.xml", 2)):
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

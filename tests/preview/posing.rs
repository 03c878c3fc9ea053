//! A preview whose poses are changed as their page does: by what it sends, and never by its files.
//! Never waits for a time.

use super::running::{Answer, Place, Preview};
use serde_json::{Value, json};
use std::io::{BufRead, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

/// A preview with what opens its poses.
pub struct Poses {
    pub place: Place,
    pub preview: Preview,
    pub list: String,
}

impl Poses {
    pub fn of(place: Place) -> Poses {
        let mut preview = place.preview(&["--port", "0"]);
        let mut line = String::new();
        while !line.starts_with("poses") {
            line.clear();
            assert_ne!(preview.said.read_line(&mut line).expect("a line"), 0, "no address");
        }
        let list = line.split(&preview.host()).nth(1).expect("an address").trim().to_string();
        Poses { place, preview, list }
    }

    /// The address of an entry's page, as the list leads to it.
    pub fn page(&self, id: &str) -> String {
        let list = self.preview.get(&self.list);
        assert_eq!(list.status, 200);
        let mut links =
            list.body.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next());
        let ending = format!("/{id}/");
        links.find(|link| link.ends_with(&ending)).expect("a link to the entry").to_string()
    }

    pub fn ours(&self) -> [String; 3] {
        let host = self.preview.host();
        [
            format!("Host: {host}"),
            format!("Origin: http://{host}"),
            "Content-Type: application/json".to_string(),
        ]
    }

    pub fn post(&self, path: &str, headers: &[String], body: &str) -> Answer {
        let mut stream =
            TcpStream::connect(("127.0.0.1", self.preview.port)).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a time limit");
        let headers: String = headers.iter().map(|header| format!("{header}\r\n")).collect();
        let long = body.len();
        let head = format!("POST {path} HTTP/1.0\r\n{headers}Content-Length: {long}\r\n\r\n");
        stream.write_all(head.as_bytes()).expect("the request goes out");
        // A server that refuses early may have closed already.
        let _ = stream.write_all(body.as_bytes());
        let mut bytes = Vec::new();
        let _ = stream.read_to_end(&mut bytes);
        Answer::from(&bytes)
    }

    pub fn ask(&self, page: &str, what: &str, print: &str, edits: &Value) -> (u16, Value) {
        let body =
            json!({"print": print, "edits": edits, "view": null, "stature": 172.0, "drag": null});
        let answer = self.post(&format!("{page}{what}"), &self.ours(), &body.to_string());
        let told = serde_json::from_str(&answer.body).unwrap_or_else(|_| panic!("{}", answer.body));
        (answer.status, told)
    }

    pub fn look(&self, page: &str, edits: &Value) -> Value {
        let (status, told) = self.ask(page, "look", "", edits);
        assert_eq!(status, 200, "{told}");
        told
    }
}

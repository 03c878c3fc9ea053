//! Guard: where a program of ours listens, and whose requests it lets in.
//! Never opens to another machine, nor to a page of another site in the same browser.

use axum::http::header::{HOST, ORIGIN};
use axum::http::{HeaderMap, HeaderValue};
use std::io::{self, ErrorKind};
use std::net::{Ipv4Addr, TcpListener};

/// The port of a preview when none is asked for: R-U-N-G on the keys of a telephone.
pub const USUAL_PORT: u16 = 7864;

/// A port of this machine that is listened on, and nowhere else.
#[derive(Debug)]
pub struct Door {
    listener: TcpListener,
    guard: Guard,
}

impl Door {
    /// Opens `wanted` (0: any free port). With none wanted it opens the preview's [`USUAL_PORT`], or any
    /// free port when that one is taken.
    ///
    /// # Errors
    /// When the system refuses the port.
    pub fn open(wanted: Option<u16>) -> io::Result<Door> {
        let listener = match TcpListener::bind((Ipv4Addr::LOCALHOST, wanted.unwrap_or(USUAL_PORT)))
        {
            Err(error) if wanted.is_none() && error.kind() == ErrorKind::AddrInUse => {
                TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?
            }
            bound => bound?,
        };
        listener.set_nonblocking(true)?;
        let guard = Guard { port: listener.local_addr()?.port() };
        Ok(Door { listener, guard })
    }

    /// The port that is open.
    pub fn port(&self) -> u16 {
        self.guard.port
    }

    /// The guard that stands at it.
    pub fn guard(&self) -> Guard {
        self.guard
    }

    /// The address of the front page, ending in `/`.
    pub fn address(&self) -> String {
        self.guard.address()
    }

    /// The listener, and the guard that stands at it.
    pub fn into_parts(self) -> (TcpListener, Guard) {
        (self.listener, self.guard)
    }
}

/// Knows by which names a browser of this machine calls us.
#[derive(Debug, Clone, Copy)]
pub struct Guard {
    port: u16,
}

impl Guard {
    /// Whether a request is for us and comes from one of our own pages, or from nobody's.
    ///
    /// Any site can give its own name the address 127.0.0.1 and so make a browser of this machine
    /// read a server that trusts every name (DNS rebinding): only our own names are let in. A page
    /// of another site that asks by script says so in `Origin` (RFC 6454, section 7).
    pub fn admits(self, headers: &HeaderMap) -> bool {
        let mut hosts = headers.get_all(HOST).iter();
        let (Some(host), None) = (hosts.next(), hosts.next()) else { return false };
        let is_ours = |name: &str| self.names().iter().any(|ours| name.eq_ignore_ascii_case(ours));
        let host_is_ours = host.to_str().is_ok_and(is_ours);
        host_is_ours && headers.get_all(ORIGIN).iter().all(|origin| self.is_ours(origin))
    }

    /// Whether a request says that one of our own pages sends it, as a browser does with everything that
    /// changes something (Fetch standard, section 3.2).
    pub fn sent_by_our_page(self, headers: &HeaderMap) -> bool {
        headers.contains_key(ORIGIN) && self.admits(headers)
    }

    fn is_ours(self, origin: &HeaderValue) -> bool {
        let name = origin.to_str().ok().and_then(|origin| origin.strip_prefix("http://"));
        name.is_some_and(|name| self.names().iter().any(|ours| name.eq_ignore_ascii_case(ours)))
    }

    /// The address of the front page, ending in `/`.
    pub fn address(self) -> String {
        format!("http://{}/", self.names()[0])
    }

    /// Our names as `Host` gives them; port 80 goes unsaid (RFC 9110, section 4.2.1).
    fn names(self) -> [String; 2] {
        ["127.0.0.1", "localhost"].map(|name| match self.port {
            80 => name.to_string(),
            port => format!("{name}:{port}"),
        })
    }
}

//! The two doors of a running server: the desk's, and the phones' over TLS.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use std::{net::SocketAddr, path::Path, sync::Arc};

use grounds_store::Store;
use grounds_web::{Config, Doors, GivenCertificate, PhonesDoor};
use rustls::{
    ClientConfig, RootCertStore,
    crypto::ring::default_provider,
    pki_types::{CertificateDer, ServerName, pem::PemObject},
};
use served::{PAINTED_HALL, document};
use tempfile::TempDir;
use tokio::{
    io::{AsyncRead, AsyncReadExt, AsyncWrite, AsyncWriteExt},
    net::TcpStream,
    sync::oneshot,
};
use tokio_rustls::TlsConnector;

/// A house of one hall.
fn hall() -> String {
    document(PAINTED_HALL, "The hall", "metric")
}

/// A running server with both doors.
struct Served {
    desk: SocketAddr,
    phones: String,
    trusting: TlsConnector,
    _stop: oneshot::Sender<()>,
    _data: TempDir,
}

/// An answer: its status, its head, its body.
struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Answer {
    fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|line| {
            let (key, value) = line.split_once(':')?;
            key.eq_ignore_ascii_case(name).then_some(value.trim())
        })
    }
}

fn trusting(data: &Path) -> TlsConnector {
    trusting_in(&data.join("phones/authority.pem"))
}

fn trusting_in(file: &Path) -> TlsConnector {
    let mut roots = RootCertStore::empty();
    let authority = CertificateDer::from_pem_file(file).unwrap();
    roots.add(authority).unwrap();
    let config = ClientConfig::builder_with_provider(Arc::new(default_provider()))
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    TlsConnector::from(Arc::new(config))
}

impl Served {
    async fn start() -> Self {
        Self::with(None, trusting).await
    }

    /// Starts with a certificate of somebody's own, and with what trusts it.
    async fn with(
        certificate: Option<GivenCertificate>,
        trusting: impl FnOnce(&Path) -> TlsConnector,
    ) -> Self {
        let data = tempfile::tempdir().unwrap();
        let store = Store::open(data.path()).await.unwrap();
        store.put_job("hall", &hall()).await.unwrap();
        store.close().await;
        let doors = Doors::open(&Config {
            listen: "127.0.0.1:0".to_owned(),
            data: Some(data.path().to_owned()),
            phones: Some(PhonesDoor {
                listen: "127.0.0.1:0".to_owned(),
                certificate,
            }),
            ..Config::default()
        })
        .await
        .unwrap();
        let desk = doors.desk_address();
        let phones = doors.phones_urls()[0].replace("https://", "");
        let (stop, stopped) = oneshot::channel::<()>();
        tokio::spawn(doors.serve(async move {
            let _ = stopped.await;
        }));
        Self {
            desk,
            phones,
            trusting: trusting(data.path()),
            _stop: stop,
            _data: data,
        }
    }

    /// Asks through the desk's door.
    async fn at_desk(&self, request: &str, body: &str) -> Answer {
        let line = TcpStream::connect(self.desk).await.unwrap();
        let origin = format!("http://{}", self.desk);
        talk(line, request, &self.desk.to_string(), &origin, body).await
    }

    /// Asks through the phones' door, as its host and with its certificate.
    async fn at_phones(&self, request: &str, cookie: &str, body: &str) -> Answer {
        let request = if cookie.is_empty() {
            request.to_owned()
        } else {
            format!("{request}\r\nCookie: {cookie}")
        };
        let origin = format!("https://{}", self.phones);
        self.as_host(&request, &self.phones, &origin, body).await
    }

    async fn as_host(&self, request: &str, host: &str, origin: &str, body: &str) -> Answer {
        let line = TcpStream::connect(&self.phones).await.unwrap();
        let name = ServerName::try_from("127.0.0.1").unwrap();
        let line = self.trusting.connect(name, line).await.unwrap();
        talk(line, request, host, origin, body).await
    }

    /// A new code, read off the desk's page.
    async fn code(&self) -> String {
        let made = self.at_desk("POST /j/hall/phones/code HTTP/1.1", "").await;
        assert_eq!(made.status, 303, "{}", made.body);
        let page = self.at_desk("GET /j/hall/phones HTTP/1.1", "").await.body;
        let (_, rest) = page.split_once("class=\"join-words\">").unwrap();
        rest.split_once('<').unwrap().0.to_owned()
    }

    async fn try_code(&self, code: &str, name: &str) -> Answer {
        let body = format!("code={code}&name={name}");
        self.at_phones("POST /join HTTP/1.1", "", &body).await
    }

    /// Joins under a name, and gives the phone's cookie.
    async fn join(&self, name: &str) -> String {
        let joined = self.try_code(&self.code().await, name).await;
        assert_eq!(joined.status, 303, "{}", joined.body);
        assert_eq!(joined.header("location"), Some("/j/hall/walk"));
        let cookie = joined.header("set-cookie").unwrap();
        for part in ["__Host-", "Secure", "HttpOnly", "SameSite=Strict"] {
            assert!(cookie.contains(part), "{cookie}");
        }
        cookie.split(';').next().unwrap().to_owned()
    }

    /// The id of the phone of a name, read off the desk's page.
    async fn phone_of(&self, name: &str) -> String {
        let page = self.at_desk("GET /j/hall/phones HTTP/1.1", "").await.body;
        let at = page.find(&format!("Shut out the phone of {name}")).unwrap();
        let (_, id) = page[..at].rsplit_once("name=\"phone\" value=\"").unwrap();
        id.split_once('"').unwrap().0.to_owned()
    }
}

async fn talk(
    mut line: impl AsyncRead + AsyncWrite + Unpin,
    request: &str,
    host: &str,
    origin: &str,
    body: &str,
) -> Answer {
    let kind = if body.starts_with('[') {
        "application/json"
    } else {
        "application/x-www-form-urlencoded"
    };
    let written = format!(
        "{request}\r\nHost: {host}\r\nOrigin: {origin}\r\nContent-Type: {kind}\r\n\
         Content-Length: {}\r\nConnection: close\r\n\r\n{body}",
        body.len()
    );
    line.write_all(written.as_bytes()).await.unwrap();
    let mut answer = Vec::new();
    // A line that is closed without a farewell still gave its answer.
    let _ = line.read_to_end(&mut answer).await;
    let answer = String::from_utf8_lossy(&answer).into_owned();
    let (head, body) = answer.split_once("\r\n\r\n").unwrap_or((&answer, ""));
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    Answer {
        status,
        head: head.to_owned(),
        body: body.to_owned(),
    }
}

fn note(by: &str) -> String {
    format!(
        r#"[{{"id":"01974f0c-86a0-7000-8000-000000000001","at":"2026-06-10T06:12:00Z","by":"{by}",
            "about":"hall.walls/paint","kind":"started"}}]"#
    )
}

const NOTES_IN: &str = "POST /api/jobs/hall/notes HTTP/1.1";

#[tokio::test]
async fn a_phone_that_has_not_joined_gets_joining_and_nothing_else() {
    let served = Served::start().await;
    for open in [
        "/join",
        "/join/certificate",
        "/join/certificate/grounds.crt",
    ] {
        let answer = served
            .at_phones(&format!("GET {open} HTTP/1.1"), "", "")
            .await;
        assert_eq!(answer.status, 200, "{open}");
        assert!(answer.header("content-security-policy").is_some());
    }
    for page in [
        "/",
        "/jobs",
        "/j/hall/now",
        "/j/hall/phones",
        "/j/hall/notes.jsonl",
        "/nothing",
    ] {
        let answer = served
            .at_phones(&format!("GET {page} HTTP/1.1"), "", "")
            .await;
        assert_eq!(
            (answer.status, answer.header("location")),
            (303, Some("/join")),
            "{page}"
        );
        assert!(!answer.body.contains("hall"), "{page}");
    }
    let told = served.at_phones(NOTES_IN, "", &note("Ana")).await;
    assert_eq!(told.status, 401);
    assert!(told.body.contains("has not joined"), "{}", told.body);
    let forged = format!(
        "__Host-phone={}.{}",
        "01974f0c-86a0-7000-8000-000000000001",
        "0".repeat(64)
    );
    let told = served
        .at_phones("GET /api/jobs/hall/plan HTTP/1.1", &forged, "")
        .await;
    assert_eq!(told.status, 401);
}

#[tokio::test]
async fn a_phone_joins_and_its_notes_bear_its_persons_name() {
    let served = Served::start().await;
    let ana = served.join("Ana+Ruiz").await;
    let page = served
        .at_phones("GET /j/hall/more HTTP/1.1", &ana, "")
        .await;
    assert_eq!(page.status, 200);
    assert!(page.body.contains("This phone writes as <b>Ana Ruiz</b>"));
    let sent = served
        .at_phones(NOTES_IN, &ana, &note("Somebody else"))
        .await;
    assert_eq!(
        (sent.status, sent.body.as_str()),
        (200, r#"{"known":0,"new":1}"#)
    );
    let again = served
        .at_phones(NOTES_IN, &ana, &note("Somebody else"))
        .await;
    assert_eq!(again.body, r#"{"known":1,"new":0}"#);
    let log = served
        .at_desk("GET /j/hall/notes.jsonl HTTP/1.1", "")
        .await
        .body;
    assert!(
        log.contains(r#""by":"Ana Ruiz""#) && log.lines().count() == 1,
        "{log}"
    );

    // The cookie by which the desk remembers a name is worth nothing here.
    let pretends = format!("{ana}; who=Ben");
    let form = "about=hall.walls/paint&act=finish&once=01974f0c-86a0-7000-8000-000000000002&back=/j/hall/now";
    served
        .at_phones("POST /j/hall/notes HTTP/1.1", &pretends, form)
        .await;
    let log = served
        .at_desk("GET /j/hall/notes.jsonl HTTP/1.1", "")
        .await
        .body;
    assert!(log.lines().count() == 2 && !log.contains("Ben"), "{log}");

    // Joined again under another name, the phone still holds what it sent: nothing changes.
    let renamed = served.join("Ana+R.").await;
    let again = served.at_phones(NOTES_IN, &renamed, &note("Ana")).await;
    assert_eq!(again.body, r#"{"known":1,"new":0}"#);
}

#[tokio::test]
async fn a_phone_that_was_shut_out_is_told_so() {
    let served = Served::start().await;
    let (ana, ben) = (served.join("Ana").await, served.join("Ben").await);
    let form = format!("phone={}", served.phone_of("Ana").await);
    let done = served
        .at_desk("POST /j/hall/phones/revoke HTTP/1.1", &form)
        .await;
    assert_eq!(done.status, 303);
    let page = served.at_phones("GET /j/hall/now HTTP/1.1", &ana, "").await;
    assert_eq!(page.status, 403);
    assert!(
        page.body.contains("This phone was shut out"),
        "{}",
        page.body
    );
    let told = served.at_phones(NOTES_IN, &ana, &note("Ana")).await;
    assert_eq!(told.status, 403);
    assert!(
        told.body
            .starts_with("{\"error\":\"This phone was shut out"),
        "{}",
        told.body
    );
    let other = served.at_phones("GET /j/hall/now HTTP/1.1", &ben, "").await;
    assert_eq!(other.status, 200);
}

#[tokio::test]
async fn only_the_desk_lets_phones_in_and_out() {
    let served = Served::start().await;
    let ana = served.join("Ana").await;
    let id = format!("phone={}", served.phone_of("Ana").await);
    for (request, body) in [
        ("GET /j/hall/phones HTTP/1.1", ""),
        ("POST /j/hall/phones/code HTTP/1.1", ""),
        ("POST /j/hall/phones/revoke HTTP/1.1", id.as_str()),
    ] {
        let answer = served.at_phones(request, &ana, body).await;
        assert_eq!(answer.status, 403, "{request}");
    }
    let page = served.at_desk("GET /j/hall/phones HTTP/1.1", "").await.body;
    assert!(page.contains("One phone has joined.") && !page.contains("join-words"));
}

#[tokio::test]
async fn a_code_is_for_one_phone_and_wrong_codes_end_the_trying() {
    let served = Served::start().await;
    let code = served.code().await;
    let nameless = served.try_code(&code, "+").await;
    assert_eq!(nameless.status, 422);
    assert!(nameless.body.contains("Say who you are"));
    assert_eq!(served.try_code(&code, "Ana").await.status, 303);
    for _ in 0..5 {
        let used = served.try_code(&code, "Ben").await;
        assert_eq!(used.status, 422);
        assert!(used.body.contains("not good now") && used.header("set-cookie").is_none());
    }
    // Now even a good one has to wait.
    let fresh = served.code().await;
    let waits = served.try_code(&fresh, "Ben").await;
    assert_eq!(waits.status, 429);
    assert!(waits.body.contains("Wait ten minutes"));
}

#[tokio::test]
async fn what_is_typed_when_joining_is_shown_as_text() {
    let served = Served::start().await;
    let hostile = "%3Cscript%3Ealert(1)%3C/script%3E%22%27";
    let answer = served
        .at_phones(&format!("GET /join?code={hostile} HTTP/1.1"), "", "")
        .await;
    assert!(answer.status == 200 && !answer.body.contains("<script>alert"));
    served.join(hostile).await;
    let page = served.at_desk("GET /j/hall/phones HTTP/1.1", "").await.body;
    assert!(page.contains("&lt;script&gt;alert(1)") && !page.contains("<script>alert"));
    let answer = served.try_code("x", "a%0D%0ASet-Cookie:%20b=c").await;
    assert!(answer.header("set-cookie").is_none());
}

#[tokio::test]
async fn the_phones_door_answers_to_its_own_name_and_to_its_own_pages() {
    let served = Served::start().await;
    let ana = served.join("Ana").await;
    let get = format!("GET /j/hall/now HTTP/1.1\r\nCookie: {ana}");
    let own = format!("https://{}", served.phones);
    for host in ["rebind.example", "", "192.168.1.77"] {
        let answer = served.as_host(&get, host, &own, "").await;
        assert_eq!(answer.status, 403, "{host}");
    }
    let post = format!("POST /j/hall/who HTTP/1.1\r\nCookie: {ana}");
    for origin in [
        "https://elsewhere.example",
        "null",
        &own.replace("https", "http"),
    ] {
        let answer = served
            .as_host(&post, &served.phones, origin, "name=x")
            .await;
        assert_eq!(answer.status, 403, "{origin}");
    }
    // The desk's door knows no phone's name, and its own host alone.
    let line = TcpStream::connect(served.desk).await.unwrap();
    let answer = talk(line, "GET /j/hall/now HTTP/1.1", &served.phones, "", "").await;
    assert_eq!(answer.status, 200, "both are this machine here");
    let line = TcpStream::connect(served.desk).await.unwrap();
    let answer = talk(line, "GET / HTTP/1.1", "192.168.1.20:4180", "", "").await;
    assert_eq!(answer.status, 403);
}

#[tokio::test]
async fn a_certificate_of_ones_own_is_shown_and_nothing_is_to_be_taken_in() {
    let files = tempfile::tempdir().unwrap();
    let [certificate, key] = ["site.pem", "site.key"].map(|name| files.path().join(name));
    let made = rcgen::generate_simple_self_signed(["localhost".to_owned(), "127.0.0.1".to_owned()]);
    let made = made.unwrap();
    std::fs::write(&certificate, made.cert.pem()).unwrap();
    std::fs::write(&key, made.signing_key.serialize_pem()).unwrap();
    let given = GivenCertificate {
        certificate: certificate.clone(),
        key,
    };
    let served = Served::with(Some(given), |_| trusting_in(&certificate)).await;
    assert!(served.phones.starts_with("localhost:"), "{}", served.phones);
    let ana = served.join("Ana").await;
    let page = served.at_phones("GET /j/hall/now HTTP/1.1", &ana, "").await;
    assert_eq!(page.status, 200);
    let page = served
        .at_phones("GET /join/certificate HTTP/1.1", "", "")
        .await;
    assert!(page.body.contains("Nothing to take in"));
    let file = "GET /join/certificate/grounds.crt HTTP/1.1";
    assert_eq!(served.at_phones(file, "", "").await.status, 404);
}

#[tokio::test]
async fn plain_talk_gets_no_answer_at_the_phones_door() {
    let served = Served::start().await;
    let mut line = TcpStream::connect(&served.phones).await.unwrap();
    line.write_all(b"GET /join HTTP/1.1\r\nHost: x\r\n\r\n")
        .await
        .unwrap();
    let mut answer = Vec::new();
    let _ = line.read_to_end(&mut answer).await;
    assert!(!String::from_utf8_lossy(&answer).contains("Join"));
}

#[tokio::test]
async fn without_a_door_for_phones_the_desk_says_how_to_open_one() {
    let data = tempfile::tempdir().unwrap();
    let store = Store::open(data.path()).await.unwrap();
    store.put_job("hall", &hall()).await.unwrap();
    store.close().await;
    let config = Config {
        listen: "127.0.0.1:0".to_owned(),
        data: Some(data.path().to_owned()),
        ..Config::default()
    };
    let doors = Doors::open(&config).await.unwrap();
    assert!(doors.phones_urls().is_empty());
    let desk = doors.desk_address();
    tokio::spawn(doors.serve(std::future::pending()));
    let line = TcpStream::connect(desk).await.unwrap();
    let page = talk(
        line,
        "GET /j/hall/phones HTTP/1.1",
        &desk.to_string(),
        "",
        "",
    )
    .await;
    assert!(page.status == 200 && page.body.contains("grounds serve --phones 0.0.0.0:4443"));
    assert!(!data.path().join("phones").exists());
}

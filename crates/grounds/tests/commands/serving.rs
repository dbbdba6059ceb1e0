//! The server, started from the command line.

use std::{
    io::{BufRead, BufReader, Read, Write},
    net::TcpStream,
    process::{Child, Command, Stdio},
};

use crate::running::grounds;

/// A server that ends with its test.
struct Server(Child);

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// What the server answers when a page is asked for.
fn ask(address: &str, path: &str) -> String {
    let mut page = TcpStream::connect(address).unwrap();
    write!(
        page,
        "GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n"
    )
    .unwrap();
    let mut answer = String::new();
    page.read_to_string(&mut answer).unwrap();
    answer
}

#[test]
fn the_demo_house_is_served_at_the_address_that_is_printed_and_nothing_else_is_printed() {
    let data = tempfile::tempdir().unwrap();
    let child = Command::new(env!("CARGO_BIN_EXE_grounds"))
        .args(["serve", "--demo", "--listen", "127.0.0.1:0", "--data"])
        .arg(data.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut server = Server(child);
    let mut line = String::new();
    BufReader::new(server.0.stdout.take().unwrap())
        .read_line(&mut line)
        .unwrap();
    let address = line
        .trim()
        .rsplit_once("http://")
        .unwrap()
        .1
        .trim_end_matches('/')
        .to_owned();

    let first = ask(&address, "/");
    let (_, front) = first.split_once("location: ").unwrap();
    let page = ask(&address, front.lines().next().unwrap());
    assert!(page.starts_with("HTTP/1.1 200"), "{page:.100}");
    assert!(page.contains("Alder Sluice"));

    server.0.kill().unwrap();
    let mut said = String::new();
    server
        .0
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut said)
        .unwrap();
    assert_eq!(said, "");
}

#[test]
fn an_address_that_others_could_reach_is_refused_with_the_reason() {
    for address in ["0.0.0.0:0", "[::]:0"] {
        let refused = grounds(&["serve", "--demo", "--listen", address]);
        assert_eq!(refused.code, Some(2), "{}", refused.err);
        assert!(
            refused.sentences().contains("other machines"),
            "{}",
            refused.err
        );
    }
}

#[test]
fn an_address_in_use_is_no_fault_of_the_input() {
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let address = taken.local_addr().unwrap().to_string();
    let refused = grounds(&["serve", "--demo", "--listen", &address]);
    assert_eq!(refused.code, Some(3), "{}", refused.err);
    assert!(
        refused.sentences().contains("another port"),
        "{}",
        refused.err
    );
}

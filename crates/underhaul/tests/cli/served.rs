//! The workbench as a program: what it answers, and when it refuses to start.

use std::io::{Read, Write};
use std::net::TcpStream;

use crate::terminal::Terminal;

/// Sends a request as it stands and reads the whole answer.
fn ask(address: &str, request: &str) -> String {
    let mut stream = TcpStream::connect(address).unwrap();
    stream.write_all(request.replace('\n', "\r\n").as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer
}

fn get(address: &str, path: &str) -> String {
    ask(address, &format!("GET {path} HTTP/1.1\nHost: {address}\nConnection: close\n\n"))
}

#[test]
fn a_new_store_begins_with_the_demo_designs_and_keeps_what_is_saved() {
    let terminal = Terminal::new();
    let served = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    let list = get(&served.address, "/api/v1/designs");
    for name in ["Tidal creek", "Street with an old main"] {
        assert!(list.contains(name), "{list}");
    }
    let body = r#"{"technique":"bursting"}"#;
    let created = ask(
        &served.address,
        &format!(
            "POST /api/v1/designs HTTP/1.1\nHost: {0}\nConnection: close\nContent-Length: {1}\n\n{body}",
            served.address,
            body.len()
        ),
    );
    assert!(created.starts_with("HTTP/1.1 201"), "{created}");
    drop(served);
    // Killed, not stopped: what was acknowledged is there.
    let again = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    assert!(get(&again.address, "/api/v1/designs/5").starts_with("HTTP/1.1 200"));
    let missing = get(&again.address, "/api/v1/designs/6");
    assert!(
        missing.starts_with("HTTP/1.1 404") && missing.contains("no_such_project"),
        "{missing}"
    );
}

#[test]
fn every_answer_carries_the_policy_and_foreign_names_are_refused() {
    let terminal = Terminal::new();
    let served = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    for path in ["/", "/assets/design.js", "/api/v1/openapi.json", "/nothing", "/api/v1/nothing"] {
        let answer = get(&served.address, path);
        assert!(answer.contains("content-security-policy: default-src 'none'"), "{path}: {answer}");
    }
    let foreign = ask(&served.address, "GET / HTTP/1.1\nHost: example.org\nConnection: close\n\n");
    assert!(foreign.starts_with("HTTP/1.1 421"), "{foreign}");
    let posted = ask(
        &served.address,
        &format!(
            "POST /api/v1/designs/1/archive HTTP/1.1\nHost: {}\nOrigin: http://example.org\nConnection: close\n\n",
            served.address
        ),
    );
    assert!(posted.starts_with("HTTP/1.1 403"), "{posted}");
}

#[test]
fn it_listens_on_this_machine_only_and_says_when_an_address_is_taken() {
    let terminal = Terminal::new();
    let open = terminal.run("serve --listen 0.0.0.0:0 --store a.designs");
    assert_eq!(open.code, 2, "{open}");
    assert!(open.err.contains("error[not_loopback]"), "{open}");
    let served = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    let taken = terminal.run(&format!("serve --listen {} --store b.designs", served.address));
    assert_eq!(taken.code, 2, "{taken}");
    assert!(taken.err.contains("error[address_in_use]"), "{taken}");
    terminal.write("c.designs", "this is no store");
    let damaged = terminal.run("serve --listen 127.0.0.1:0 --store c.designs");
    assert_eq!(damaged.code, 2, "{damaged}");
    assert!(damaged.err.contains("error[not_a_database]"), "{damaged}");
}

#[test]
fn a_store_in_use_is_backed_up_and_put_back() {
    let terminal = Terminal::new();
    let served = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    let copied = terminal.run("backup a.designs copy.designs");
    assert_eq!(copied.code, 0, "{copied}");
    let twice = terminal.run("backup a.designs copy.designs");
    assert_eq!(twice.code, 2, "{twice}");
    drop(served);
    let refused = terminal.run("restore copy.designs a.designs");
    assert_eq!(refused.code, 2, "{refused}");
    let restored = terminal.run("restore copy.designs a.designs --replace");
    assert_eq!(restored.code, 0, "{restored}");
    let served = terminal.serve("serve --listen 127.0.0.1:0 --store a.designs");
    assert!(get(&served.address, "/api/v1/designs").contains("Tidal creek"));
}

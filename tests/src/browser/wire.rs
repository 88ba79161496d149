//! Requests to a WebDriver on this machine: one connection each, JSON both ways.

use std::{
    io::{self, BufRead, BufReader, Read, Write},
    net::{Ipv4Addr, TcpStream},
    time::Duration,
};

use serde_json::{Value, json};

const PATIENCE: Duration = Duration::from_secs(90);

/// What the driver says instead of an answer.
#[derive(Debug)]
pub(super) struct Refused {
    /// Its code, such as `stale element reference`.
    pub(super) error: String,
    pub(super) message: String,
}

impl From<io::Error> for Refused {
    fn from(error: io::Error) -> Self {
        Self {
            error: "no connection".to_owned(),
            message: error.to_string(),
        }
    }
}

/// Sends one command; `body` is `null` for one without.
pub(super) fn send(port: u16, method: &str, path: &str, body: &Value) -> Result<Value, Refused> {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port))?;
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_nodelay(true)?;
    let body = if body.is_null() {
        String::new()
    } else {
        body.to_string()
    };
    let request = format!(
        "{method} {path} HTTP/1.1\r\nHost: localhost:{port}\r\nContent-Type: application/json\r\n\
         Content-Length: {}\r\nConnection: close\r\n\r\n{body}",
        body.len()
    );
    stream.write_all(request.as_bytes())?;
    let mut answer = BufReader::new(stream);
    let mut length = None;
    loop {
        let mut line = String::new();
        answer.read_line(&mut line)?;
        if line.trim().is_empty() {
            break;
        }
        if let Some((name, value)) = line.split_once(':')
            && name.eq_ignore_ascii_case("content-length")
        {
            length = value.trim().parse::<usize>().ok();
        }
    }
    let mut bytes = Vec::new();
    match length {
        Some(length) => {
            bytes.resize(length, 0);
            answer.read_exact(&mut bytes)?;
        }
        None => {
            answer.read_to_end(&mut bytes)?;
        }
    }
    let mut answer: Value = serde_json::from_slice(&bytes).unwrap_or_else(
        |error| json!({"value": {"error": "not JSON", "message": error.to_string()}}),
    );
    let value = answer["value"].take();
    match value["error"].as_str() {
        Some(error) => Err(Refused {
            error: error.to_owned(),
            message: value["message"].as_str().unwrap_or_default().to_owned(),
        }),
        None => Ok(value),
    }
}

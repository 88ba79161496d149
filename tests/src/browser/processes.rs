//! Which processes a child has started, and ending them all at once, without any goodbye.

use std::{collections::BTreeMap, fs, process::Command, thread::sleep, time::Duration};

/// The process and everything below it, by parent links, as the system lists them now.
fn family(of: u32) -> Vec<u32> {
    let parents: BTreeMap<u32, u32> = fs::read_dir("/proc")
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|entry| entry.file_name().to_str()?.parse().ok())
        .filter_map(|id| Some((id, parent(id)?)))
        .collect();
    let mut found = vec![of];
    let mut at = 0;
    while let Some(&next) = found.get(at) {
        found.extend(
            parents
                .iter()
                .filter(|(_, parent)| **parent == next)
                .map(|(id, _)| *id),
        );
        at += 1;
    }
    found
}

fn parent(id: u32) -> Option<u32> {
    let stat = fs::read_to_string(format!("/proc/{id}/stat")).ok()?;
    // The name in brackets may hold anything; what follows it is plain.
    let (_, rest) = stat.rsplit_once(')')?;
    let mut words = rest.split_whitespace();
    (words.next()? != "Z")
        .then(|| words.next()?.parse().ok())
        .flatten()
}

/// SIGKILL for the process and everything below it, in one go. Returns when all are gone.
pub(super) fn kill_family(of: u32) {
    let all = family(of);
    let ids: Vec<String> = all.iter().map(u32::to_string).collect();
    let killed = Command::new("kill").arg("-KILL").args(&ids).output();
    killed.expect("kill can be started");
    for _ in 0..200 {
        if all.iter().all(|id| parent(*id).is_none()) {
            return;
        }
        sleep(Duration::from_millis(10));
    }
    panic!("some of {ids:?} did not end");
}

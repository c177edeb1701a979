//! A log with any bytes in it: read line by line, as it stands and with the sums that its lines would have; then a job worked from it.

use super::{DEMO, hold, shop_of, tree};
use setover::job::{JobFile, Log};
use setover::operations::Request;
use setover::plan::{Cards, logged, work};
use setover::proof::Place;
use std::sync::OnceLock;

/// The jobs that a log is read of.
const OF: [&str; 3] = [
    include_str!("../../examples/face.yaml"),
    include_str!("../../examples/ream-bush.yaml"),
    include_str!("../../examples/turn.yaml"),
];

/// A log, as it stands and with its sums put right.
pub fn log(bytes: &[u8]) {
    whole(bytes);
    whole(&with_sums(bytes));
}

/// What must hold of a log: each line costs itself alone, what is counted was read, and no job is worked better than its checks.
fn whole(bytes: &[u8]) {
    let log = Log::read(bytes, Place::start(2));
    let lines = bytes.split(|byte| *byte == b'\n').count();
    for fault in &log.faults {
        assert!((1..=lines).contains(&(fault.line as usize)), "line {} of {lines}", fault.line);
        assert!(fault.between.0 <= fault.between.1, "{fault:?}");
    }
    let mut seen = Vec::new();
    for entry in &log.entries {
        let n = entry.n.value;
        assert!(n <= log.last && !seen.contains(&n), "entry {n} of {}", log.last);
        seen.push(n);
    }
    for upto in [None, Some(0), Some(log.last / 2)] {
        assert!(
            log.standing(upto)
                .all(|entry| seen.contains(&entry.n.value) && upto.is_none_or(|upto| entry.n.value <= upto))
        );
    }
    // Read twice it is the same.
    let again = Log::read(bytes, Place::start(2));
    assert_eq!((format!("{:?}", again.entries), again.faults), (format!("{:?}", log.entries), log.faults.clone()));
    let text = OF[bytes.len() % OF.len()];
    let job: JobFile<Request> = JobFile::read(tree(text, 0).expect("yaml")).expect("a job");
    let shop = shop_of(DEMO).expect("a shop");
    static CARDS: OnceLock<Cards> = OnceLock::new();
    let cards = CARDS.get_or_init(|| Cards::built_in(Request::WORDS.iter().copied()).expect("cards"));
    match logged(&job, Some(&shop), &log, None) {
        Err(problems) => assert!(!problems.is_empty()),
        Ok(logged) => {
            let Ok(plan) = work(&job, Some(&shop), cards, logged) else { return };
            for (request, planned) in job.parts.iter().flat_map(|part| &part.operations).zip(&plan.operations) {
                hold(request, planned, text);
            }
        }
    }
}

/// The same bytes, each line that looks like an entry with the sum over all that stands before it.
fn with_sums(bytes: &[u8]) -> Vec<u8> {
    let mut out: Vec<u8> = Vec::with_capacity(bytes.len() + 64);
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        let (body, end) = line.strip_suffix(b"\n").map_or((line, &b""[..]), |body| (body, &b"\n"[..]));
        let open = body.strip_suffix(b"}").filter(|open| open.starts_with(b"- {"));
        let Some(open) = open else {
            out.extend_from_slice(line);
            continue;
        };
        let cut = open.windows(7).rposition(|seven| seven == b", sum: ").filter(|at| open.len() - at == 15);
        out.extend_from_slice(cut.map_or(open, |at| &open[..at]));
        let sum = crc(&out);
        out.extend_from_slice(format!(", sum: {sum:08x}}}").as_bytes());
        out.extend_from_slice(end);
    }
    out
}

/// CRC-32 bit by bit, which shares nothing with the program's.
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0_u32, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| if sum & 1 == 1 { sum >> 1 ^ 0xedb8_8320 } else { sum >> 1 })
    })
}

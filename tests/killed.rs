//! Killed at the entry of each of its system calls, one after the other, the program leaves a whole file or the old one, and whoever
//! comes next goes on. What the machine does between two system calls changes nothing that outlives the process, so no moment is left out.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log::JOB as COLLAR;
use crate::log_loop::Bench;
use nix::sys::ptrace;
use nix::sys::signal::{Signal, kill};
use nix::sys::wait::{WaitStatus, waitpid};
use nix::unistd::Pid;
use std::collections::BTreeSet;
use std::fs::DirEntry;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Mutex;

const AT: &str = "collar/face";

/// Each of so many hands kills in a folder of its own: most of the time is waiting.
const HANDS: usize = 4;

/// A process that stops at each of its system calls. It ends with its tracer.
struct Traced {
    pid: Pid,
    /// Stopped where a system call begins, not where one ends.
    enters: bool,
}

/// What a process that was let run came to.
#[derive(Debug, PartialEq, Eq)]
enum Came {
    /// The beginning of a system call, of which nothing is done.
    Call,
    /// Its end, with its code.
    Ended(i32),
}

impl Traced {
    /// Starts a program that waits for a line in a shell until it is traced, so that nothing of this process runs between fork and exec.
    // Its end is waited for by its number, as every stop of it is.
    #[allow(clippy::zombie_processes)]
    fn start(program: &str, words: &[&str], folder: &Path) -> Self {
        let mut waits = Command::new("sh")
            .args(["-c", "read -r go; exec \"$@\"", "sh", program])
            .args(words)
            .current_dir(folder)
            // Where the build tool names folders for libraries, each is looked through by two hundred more calls.
            .env_remove("LD_LIBRARY_PATH")
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("runs");
        let pid = Pid::from_raw(i32::try_from(waits.id()).expect("a number"));
        let options = ptrace::Options::PTRACE_O_TRACESYSGOOD
            | ptrace::Options::PTRACE_O_TRACEEXEC
            | ptrace::Options::PTRACE_O_EXITKILL;
        ptrace::seize(pid, options).expect("may be traced");
        waits.stdin.take().expect("a pipe").write_all(b"go\n").expect("told");
        let is_shell = || {
            let words = std::fs::read(format!("/proc/{pid}/cmdline")).expect("its words");
            String::from_utf8_lossy(&words).contains("read -r go")
        };
        loop {
            let (came, mut signal) = (waitpid(pid, None).expect("waits"), None);
            match came {
                WaitStatus::PtraceEvent(_, _, nix::libc::PTRACE_EVENT_EXEC) if !is_shell() => break,
                WaitStatus::PtraceEvent(..) => {}
                WaitStatus::Stopped(_, came) => signal = Some(came),
                other => panic!("{other:?}"),
            }
            ptrace::cont(pid, signal).expect("goes on");
        }
        // The next stop is the end of the call that made the program of it.
        Self { pid, enters: true }
    }

    /// Lets it run to its next system call.
    fn goes_on(&mut self) -> Came {
        let mut signal = None;
        loop {
            ptrace::syscall(self.pid, signal.take()).expect("goes on");
            match waitpid(self.pid, None).expect("waits") {
                WaitStatus::PtraceSyscall(_) => {
                    self.enters = !self.enters;
                    if self.enters {
                        return Came::Call;
                    }
                }
                WaitStatus::Stopped(_, came) => signal = Some(came),
                WaitStatus::Exited(_, code) => return Came::Ended(code),
                other => panic!("{other:?}"),
            }
        }
    }

    /// Kills it where it stands: the system call that it was about to make is not made.
    fn kill(self) {
        kill(self.pid, Signal::SIGKILL).expect("killed");
        let ended = waitpid(self.pid, None).expect("waits");
        assert!(matches!(ended, WaitStatus::Signaled(_, Signal::SIGKILL, _)), "{ended:?}");
    }

    /// Whether it has a file open of which this holds.
    fn has_open(&self, is_it: fn(&str) -> bool) -> bool {
        let all = std::fs::read_dir(format!("/proc/{}/fd", self.pid)).expect("its files");
        all.flatten().filter_map(|one| std::fs::read_link(one.path()).ok()).any(|to| is_it(&to.to_string_lossy()))
    }
}

/// What is written, and how one sees it.
struct Writing {
    words: &'static [&'static str],
    /// The file that is written.
    file: &'static str,
    /// What stood in it before; nothing where it was not there.
    old: Option<Vec<u8>>,
    /// A file that is open as long as something is half done.
    is_begun: fn(&str) -> bool,
}

/// How often it was killed, and how often the old and the new file stood there; of each once its writing had begun.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Seen {
    calls: usize,
    begun: usize,
    old: usize,
    new: usize,
}

impl Writing {
    /// Puts back what stood there before.
    fn put_back(&self, folder: &Path) {
        let path = folder.join(self.file);
        match &self.old {
            Some(old) => std::fs::write(path, old).expect("put back"),
            None => drop(std::fs::remove_file(path)),
        }
    }

    /// Kills it at each `HANDS`th system call from the `first` on, until it runs to its end.
    fn killed(&self, first: usize, whole: &[u8], next: impl Fn(&Bench, usize)) -> Seen {
        let folder = Bench::of(COLLAR);
        let mut seen = Seen::default();
        for at in (first..).step_by(HANDS) {
            self.put_back(folder.path());
            let mut traced = Traced::start(env!("CARGO_BIN_EXE_setover"), self.words, folder.path());
            let mut begun = false;
            for _ in 0..=at {
                if let Came::Ended(code) = traced.goes_on() {
                    assert_eq!(code, 0);
                    assert_eq!(std::fs::read(folder.path().join(self.file)).expect("there"), whole);
                    return seen;
                }
                begun = begun || traced.has_open(self.is_begun);
            }
            traced.kill();
            let there = std::fs::read(folder.path().join(self.file)).ok();
            let (is_old, is_new) = (there == self.old, there.as_deref() == Some(whole));
            assert!(
                is_old || is_new,
                "call {at}: {:?}",
                there.map(|bytes| String::from_utf8_lossy(&bytes).into_owned())
            );
            assert!(is_old || begun, "call {at}: written before it was begun");
            seen.calls += 1;
            if begun {
                seen.begun += 1;
                seen.old += usize::from(is_old);
                seen.new += usize::from(is_new);
                next(&folder, at);
            }
        }
        seen
    }

    /// The same by several hands, together.
    fn killed_at_every_call(&self, next: impl Fn(&Bench, usize) + Sync) -> Seen {
        let whole = {
            let folder = Bench::of(COLLAR);
            self.put_back(folder.path());
            assert_eq!(folder.run(self.words).status.code(), Some(0));
            std::fs::read(folder.path().join(self.file)).expect("written")
        };
        let (whole, next) = (&whole, &next);
        std::thread::scope(|scope| {
            let all: Vec<_> = (0..HANDS).map(|first| scope.spawn(move || self.killed(first, whole, next))).collect();
            all.into_iter().map(|one| one.join().expect("whole files")).fold(Seen::default(), |sum, one| Seen {
                calls: sum.calls + one.calls,
                begun: sum.begun + one.begun,
                old: sum.old + one.old,
                new: sum.new + one.new,
            })
        })
    }
}

/// The next entry is written at once behind what stands there, and the next plan reads it. What it finds is planned once: a plan
/// takes no lock.
fn log_and_plan_go_on(folder: &Bench, at: usize, planned: &Mutex<BTreeSet<Vec<(String, u64)>>>) {
    let there = std::fs::read_dir(folder.path()).expect("folder").map(|entry| entry.expect("entry"));
    let length = |entry: &DirEntry| entry.metadata().expect("about").len();
    let mut there: Vec<_> =
        there.map(|entry| (entry.file_name().to_string_lossy().into_owned(), length(&entry))).collect();
    there.sort();
    if planned.lock().expect("no hand died").insert(there) {
        let plan = folder.run(&["plan", "job.yaml"]);
        assert_eq!(plan.status.code(), Some(0), "call {at}: {plan:?}");
    }
    let before = std::fs::read_to_string(folder.path().join("job.log.yaml")).unwrap_or_default();
    let next = folder.run(&["log", "job.yaml", AT, "note=and on", "--date", "2026-12-02", "--wait", "0"]);
    assert_eq!(next.status.code(), Some(0), "call {at}: {next:?}");
    let after = std::fs::read_to_string(folder.path().join("job.log.yaml")).expect("a log");
    let new = after.strip_prefix(&before).expect("the old lines stand");
    assert!(new.contains("note: and on") && new.lines().count() == 1, "call {at}: {new}");
}

const ENTRY: &[&str] = &["log", "job.yaml", AT, "length_after=21.677 mm", "--date", "2026-12-01"];

#[test]
fn the_first_entry_of_a_log_is_there_whole_or_not_at_all() {
    let first = Writing { words: ENTRY, file: "job.log.yaml", old: None, is_begun: |open| open.ends_with(".lock") };
    let planned = Mutex::default();
    let seen = first.killed_at_every_call(|folder, at| log_and_plan_go_on(folder, at, &planned));
    println!("{seen:?}");
    assert!(seen.calls > 100 && seen.old > 5 && seen.new > 5, "{seen:?}");
}

#[test]
fn a_log_that_is_killed_at_any_system_call_is_the_old_one_or_the_new() {
    let old = {
        let folder = Bench::of(COLLAR);
        assert_eq!(folder.run(&["log", "job.yaml", AT, "note=begun", "--date", "2026-12-01"]).status.code(), Some(0));
        std::fs::read(folder.path().join("job.log.yaml")).expect("a log")
    };
    let second =
        Writing { words: ENTRY, file: "job.log.yaml", old: Some(old), is_begun: |open| open.ends_with(".lock") };
    let planned = Mutex::default();
    let seen = second.killed_at_every_call(|folder, at| log_and_plan_go_on(folder, at, &planned));
    println!("{seen:?}");
    assert!(seen.calls > 100 && seen.old > 10 && seen.new > 5, "{seen:?}");
}

#[test]
fn a_page_that_is_killed_at_any_system_call_is_the_old_one_or_the_new() {
    let page = Writing {
        words: &["sheets", "job.yaml", "--force", "-o", "sheets.pdf"],
        file: "sheets.pdf",
        old: Some(b"what stood here before".to_vec()),
        is_begun: |open| open.contains("/.setover-"),
    };
    let seen = page.killed_at_every_call(|folder, at| {
        let next = folder.run(&["sheets", "job.yaml", "--force", "-o", "sheets.pdf"]);
        assert_eq!(next.status.code(), Some(0), "call {at}: {next:?}");
        let bytes = std::fs::read(folder.path().join("sheets.pdf")).expect("a page");
        assert!(bytes.starts_with(b"%PDF-") && bytes.ends_with(b"%%EOF\n"), "call {at}");
    });
    println!("{seen:?}");
    assert!(seen.calls > 100 && seen.old > 2 && seen.new > 1, "{seen:?}");
}

/// Who writes into the file itself is caught half way: the tests above can tell.
#[test]
fn who_writes_in_place_is_caught_half_way() {
    let folder = tempfile::tempdir().expect("folder");
    let path = folder.path().join("file");
    let mut found = Vec::new();
    for at in 0.. {
        std::fs::write(&path, "old").expect("old");
        let mut traced = Traced::start("sh", &["-c", "{ printf new; printf er; } > file"], folder.path());
        if (0..=at).any(|_| traced.goes_on() == Came::Ended(0)) {
            break;
        }
        traced.kill();
        found.push(std::fs::read_to_string(&path).expect("there"));
    }
    found.dedup();
    assert_eq!(found, ["old", "", "new", "newer"]);
}

//! setover works out, for one workshop's own machines, how worn engine parts are put right, and prints the sheets to pin by
//! the machine. This page is the map of its modules: each imports
//! only from layers below its own.
//!
//! | layer | module | what it holds |
//! |---|---|---|
//! | 10 | [`cli`] | one file a command: arguments in, exit code out |
//! | 9 | [`sheet`] | pages: layout, draughting, one back end an output |
//! | 8 | [`plan`] | working a job through: order, words of the cards |
//! | 8 | [`lookup`] | one question to the book: words in, a page of figures out |
//! | 7 | [`operations`](mod@operations) | one operation a file, and what they share |
//! | 6 | [`job`] | the frame of a job file, addresses, the ledger |
//! | 5 | [`shop`] | what this shop owns, and picking from it |
//! | 4 | [`handbook`] | formulas, tables, refusals |
//! | 3 | [`reading`], [`drawing`] | documents with places; what a sketch says |
//! | 2 | [`proof`] | why a figure may be believed |
//! | 1 | [`quantity`] | what a number means |
//! | 1 | [`spread`] | work shared out over the processors |
//! | 1 | [`in_order`] | lists put in order |
//! | beside | [`files`] | the only module that opens and renames files |

#![cfg_attr(not(test), deny(unreachable_pub))]
// The documentation is made and read with what is private.
#![allow(rustdoc::private_intra_doc_links)]

pub mod cli;
pub mod drawing;
pub mod files;
pub mod handbook;
mod in_order;
pub mod job;
pub mod lookup;
pub mod operations;
pub mod plan;
pub mod proof;
pub mod quantity;
pub mod reading;
pub mod sheet;
pub mod shop;
mod spread;

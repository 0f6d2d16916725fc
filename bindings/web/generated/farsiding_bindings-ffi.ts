// @generated from the Rust API by bindings/generate. Do not edit.
/* tslint:disable */
/* eslint-disable */
// @ts-nocheck
// Only `/core`, which is environment-neutral. Opening the `.wasm` is the
// generated `index.ts`'s job, so this module
// bundles for node, browsers and React Native alike.
import { FfiType } from "@ubjs/wasm/core";

import {
  type StructuralEquality as UniffiStructuralEquality,
  type UniffiForeignFuture as RuntimeUniffiForeignFuture,
  type UniffiRustCallStatus,
  type UniffiGcObject,
  type UniffiRustFutureContinuationCallback as RuntimeUniffiRustFutureContinuationCallback,
  type UniffiResult,
} from '@ubjs/core';

const DEFINITIONS = {
  symbols: {
    rustbuffer_alloc: "ffi_farsiding_bindings_rustbuffer_alloc",
    rustbuffer_free: "ffi_farsiding_bindings_rustbuffer_free",
    rustbuffer_from_bytes: "ffi_farsiding_bindings_rustbuffer_from_bytes",
  },
  functions: {
    "ffi_farsiding_bindings_rust_future_poll_u8": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_u8": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_u8": {
      args: [FfiType.Handle],
      ret: FfiType.UInt8,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_u8": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_i8": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_i8": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_i8": {
      args: [FfiType.Handle],
      ret: FfiType.Int8,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_i8": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_u16": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_u16": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_u16": {
      args: [FfiType.Handle],
      ret: FfiType.UInt16,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_u16": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_i16": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_i16": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_i16": {
      args: [FfiType.Handle],
      ret: FfiType.Int16,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_i16": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_u32": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_u32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_u32": {
      args: [FfiType.Handle],
      ret: FfiType.UInt32,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_u32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_i32": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_i32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_i32": {
      args: [FfiType.Handle],
      ret: FfiType.Int32,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_i32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_u64": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_u64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_u64": {
      args: [FfiType.Handle],
      ret: FfiType.Handle,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_u64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_i64": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_i64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_i64": {
      args: [FfiType.Handle],
      ret: FfiType.Int64,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_i64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_f32": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_f32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_f32": {
      args: [FfiType.Handle],
      ret: FfiType.Float32,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_f32": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_f64": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_f64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_f64": {
      args: [FfiType.Handle],
      ret: FfiType.Float64,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_f64": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_rust_buffer": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_rust_buffer": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_rust_buffer": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_rust_buffer": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_poll_void": {
      args: [FfiType.Handle, FfiType.Callback("RustFutureContinuationCallback"), FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_cancel_void": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ffi_farsiding_bindings_rust_future_complete_void": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_rust_future_free_void": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_fn_clone_book": {
      args: [FfiType.Handle],
      ret: FfiType.Handle,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_free_book": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_calculate": {
      args: [FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_core_version": {
      args: [],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_formulas": {
      args: [],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_new_key": {
      args: [],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_pin_may_be_chosen": {
      args: [FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_pin_storage_key": {
      args: [FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_func_prepare_storage": {
      args: [FfiType.RustBuffer],
      ret: FfiType.Handle,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_fn_func_read_amount": {
      args: [FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_constructor_book_open": {
      args: [FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Handle,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_append": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_binds": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.Int8,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_carried_photo": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_carry_in": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_carry_out": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_carry_photo": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_change_pin": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_device": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_drafts": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_enrol_request": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.Int64],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_enrolled": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_enrolled_with": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_find": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_fit_to_unload": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_forget_person_key": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_keep_beside": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_lock_people": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_log_receive": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_log_request": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_make_person_key": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_new_site": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_open_visit": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_over": {
      args: [FfiType.Handle, FfiType.UInt32, FfiType.UInt32],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_override_items": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_pass_over": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_pass_request": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_people": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_people_here": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_photo_taken": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.UInt64, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_photos_of": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_photos_waiting": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_preview": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_record_step": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_release": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.Int8, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_set_draft": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_settle": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_show": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_sites": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_standing": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_status": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_sync_receive": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_sync_request": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_sync_start": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_unlock_person": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.Void,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_visit": {
      args: [FfiType.Handle, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_visits": {
      args: [FfiType.Handle],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "uniffi_farsiding_bindings_fn_method_book_withdraw": {
      args: [FfiType.Handle, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer, FfiType.RustBuffer],
      ret: FfiType.RustBuffer,
      hasRustCallStatus: true,
    },
    "ffi_farsiding_bindings_uniffi_contract_version": {
      args: [],
      ret: FfiType.UInt32,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_calculate": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_core_version": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_formulas": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_new_key": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_pin_storage_key": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_prepare_storage": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_func_read_amount": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_constructor_book_open": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_append": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_binds": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_carried_photo": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_carry_in": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_carry_out": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_carry_photo": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_change_pin": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_device": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_drafts": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_enrol_request": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_enrolled": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_enrolled_with": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_find": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_fit_to_unload": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_forget_person_key": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_keep_beside": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_lock_people": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_log_receive": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_log_request": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_make_person_key": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_new_site": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_open_visit": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_over": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_override_items": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_pass_over": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_pass_request": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_people": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_people_here": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_photo_taken": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_photos_of": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_photos_waiting": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_preview": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_record_step": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_release": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_set_draft": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_settle": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_show": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_sites": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_standing": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_status": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_sync_receive": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_sync_request": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_sync_start": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_unlock_person": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_visit": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_visits": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
    "uniffi_farsiding_bindings_checksum_method_book_withdraw": {
      args: [],
      ret: FfiType.UInt16,
      hasRustCallStatus: false,
    },
  },
  callbacks: {
    "RustFutureContinuationCallback": {
      args: [FfiType.Handle, FfiType.Int8],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
    "ForeignFutureDroppedCallback": {
      args: [FfiType.Handle],
      ret: FfiType.Void,
      hasRustCallStatus: false,
    },
  },
  structs: {
    "ForeignFutureDroppedCallbackStruct": [
      { name: "handle", type: FfiType.Handle },
      { name: "free", type: FfiType.Callback("ForeignFutureDroppedCallback") },
    ],
  },
} as const;

interface NativeModuleInterface {
    ffi_farsiding_bindings_rust_future_poll_u8(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_u8(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_u8(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_u8(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_i8(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_i8(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_i8(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_i8(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_u16(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_u16(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_u16(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_u16(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_i16(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_i16(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_i16(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_i16(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_u32(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_u32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_u32(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_u32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_i32(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_i32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_i32(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_i32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_u64(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_u64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_u64(handle: bigint, uniffi_out_err: UniffiRustCallStatus): bigint;
    ffi_farsiding_bindings_rust_future_free_u64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_i64(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_i64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_i64(handle: bigint, uniffi_out_err: UniffiRustCallStatus): bigint;
    ffi_farsiding_bindings_rust_future_free_i64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_f32(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_f32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_f32(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_f32(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_f64(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_f64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_f64(handle: bigint, uniffi_out_err: UniffiRustCallStatus): number;
    ffi_farsiding_bindings_rust_future_free_f64(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_rust_buffer(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_rust_buffer(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_rust_buffer(handle: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    ffi_farsiding_bindings_rust_future_free_rust_buffer(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_poll_void(handle: bigint, callback: UniffiRustFutureContinuationCallback, callbackData: bigint): void;
    ffi_farsiding_bindings_rust_future_cancel_void(handle: bigint): void;
    ffi_farsiding_bindings_rust_future_complete_void(handle: bigint, uniffi_out_err: UniffiRustCallStatus): void;
    ffi_farsiding_bindings_rust_future_free_void(handle: bigint): void;
    uniffi_farsiding_bindings_fn_clone_book(ptr: bigint, uniffi_out_err: UniffiRustCallStatus): bigint;
    uniffi_farsiding_bindings_fn_free_book(ptr: bigint, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_func_calculate(formula: Uint8Array, line: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_func_core_version(uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_func_formulas(uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_func_new_key(uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(pin: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_func_pin_storage_key(pin: Uint8Array, beside: Uint8Array, salt: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_func_prepare_storage(folder: Uint8Array): bigint;
    uniffi_farsiding_bindings_fn_func_read_amount(text: Uint8Array, unit: Uint8Array, decimalMark: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_constructor_book_open(folder: Uint8Array, name: Uint8Array, key: Uint8Array, uniffi_out_err: UniffiRustCallStatus): bigint;
    uniffi_farsiding_bindings_fn_method_book_append(uniffiSelf: bigint, subject: Uint8Array, drafts: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_binds(uniffiSelf: bigint, drafts: Uint8Array, uniffi_out_err: UniffiRustCallStatus): number;
    uniffi_farsiding_bindings_fn_method_book_carried_photo(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_carry_in(uniffiSelf: bigint, file: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_carry_out(uniffiSelf: bigint, visits: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_carry_photo(uniffiSelf: bigint, bytes: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_change_pin(uniffiSelf: bigint, person: Uint8Array, oldPin: Uint8Array, newPin: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_device(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_drafts(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_enrol_request(uniffiSelf: bigint, code: Uint8Array, name: Uint8Array, organisationKey: Uint8Array, serverTime: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_enrolled(uniffiSelf: bigint, organisationKey: Uint8Array, certificate: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_enrolled_with(uniffiSelf: bigint, organisationKey: Uint8Array, keyStatements: Uint8Array, certificate: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_find(uniffiSelf: bigint, text: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_fit_to_unload(uniffiSelf: bigint, visit: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_forget_person_key(uniffiSelf: bigint, person: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_keep_beside(uniffiSelf: bigint, secret: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_lock_people(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_log_receive(uniffiSelf: bigint, reply: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_log_request(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_make_person_key(uniffiSelf: bigint, person: Uint8Array, pin: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_new_site(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_open_visit(uniffiSelf: bigint, opening: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_over(uniffiSelf: bigint, from: number, most: number, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_override_items(uniffiSelf: bigint, visit: Uint8Array, gate: Uint8Array, items: Uint8Array, reason: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_pass_over(uniffiSelf: bigint, visit: Uint8Array, blocker: Uint8Array, why: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_pass_request(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_people(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_people_here(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_photo_taken(uniffiSelf: bigint, sha256: Uint8Array, length: bigint, media: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_photos_of(uniffiSelf: bigint, visits: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_photos_waiting(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_preview(uniffiSelf: bigint, visit: Uint8Array, drafts: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_record_step(uniffiSelf: bigint, visit: Uint8Array, step: Uint8Array, outcome: Uint8Array, note: Uint8Array, drafts: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_release(uniffiSelf: bigint, visit: Uint8Array, asResidue: number, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_set_draft(uniffiSelf: bigint, key: Uint8Array, text: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_settle(uniffiSelf: bigint, visit: Uint8Array, keeps: Uint8Array, why: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_show(uniffiSelf: bigint, visit: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_sites(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_standing(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_status(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_sync_receive(uniffiSelf: bigint, reply: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_sync_request(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_sync_start(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_unlock_person(uniffiSelf: bigint, person: Uint8Array, pin: Uint8Array, uniffi_out_err: UniffiRustCallStatus): void;
    uniffi_farsiding_bindings_fn_method_book_visit(uniffiSelf: bigint, visit: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_visits(uniffiSelf: bigint, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    uniffi_farsiding_bindings_fn_method_book_withdraw(uniffiSelf: bigint, visit: Uint8Array, entry: Uint8Array, why: Uint8Array, operator: Uint8Array, uniffi_out_err: UniffiRustCallStatus): Uint8Array;
    ffi_farsiding_bindings_uniffi_contract_version(): number;
    uniffi_farsiding_bindings_checksum_func_calculate(): number;
    uniffi_farsiding_bindings_checksum_func_core_version(): number;
    uniffi_farsiding_bindings_checksum_func_formulas(): number;
    uniffi_farsiding_bindings_checksum_func_new_key(): number;
    uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen(): number;
    uniffi_farsiding_bindings_checksum_func_pin_storage_key(): number;
    uniffi_farsiding_bindings_checksum_func_prepare_storage(): number;
    uniffi_farsiding_bindings_checksum_func_read_amount(): number;
    uniffi_farsiding_bindings_checksum_constructor_book_open(): number;
    uniffi_farsiding_bindings_checksum_method_book_append(): number;
    uniffi_farsiding_bindings_checksum_method_book_binds(): number;
    uniffi_farsiding_bindings_checksum_method_book_carried_photo(): number;
    uniffi_farsiding_bindings_checksum_method_book_carry_in(): number;
    uniffi_farsiding_bindings_checksum_method_book_carry_out(): number;
    uniffi_farsiding_bindings_checksum_method_book_carry_photo(): number;
    uniffi_farsiding_bindings_checksum_method_book_change_pin(): number;
    uniffi_farsiding_bindings_checksum_method_book_device(): number;
    uniffi_farsiding_bindings_checksum_method_book_drafts(): number;
    uniffi_farsiding_bindings_checksum_method_book_enrol_request(): number;
    uniffi_farsiding_bindings_checksum_method_book_enrolled(): number;
    uniffi_farsiding_bindings_checksum_method_book_enrolled_with(): number;
    uniffi_farsiding_bindings_checksum_method_book_find(): number;
    uniffi_farsiding_bindings_checksum_method_book_fit_to_unload(): number;
    uniffi_farsiding_bindings_checksum_method_book_forget_person_key(): number;
    uniffi_farsiding_bindings_checksum_method_book_keep_beside(): number;
    uniffi_farsiding_bindings_checksum_method_book_lock_people(): number;
    uniffi_farsiding_bindings_checksum_method_book_log_receive(): number;
    uniffi_farsiding_bindings_checksum_method_book_log_request(): number;
    uniffi_farsiding_bindings_checksum_method_book_make_person_key(): number;
    uniffi_farsiding_bindings_checksum_method_book_new_site(): number;
    uniffi_farsiding_bindings_checksum_method_book_open_visit(): number;
    uniffi_farsiding_bindings_checksum_method_book_over(): number;
    uniffi_farsiding_bindings_checksum_method_book_override_items(): number;
    uniffi_farsiding_bindings_checksum_method_book_pass_over(): number;
    uniffi_farsiding_bindings_checksum_method_book_pass_request(): number;
    uniffi_farsiding_bindings_checksum_method_book_people(): number;
    uniffi_farsiding_bindings_checksum_method_book_people_here(): number;
    uniffi_farsiding_bindings_checksum_method_book_photo_taken(): number;
    uniffi_farsiding_bindings_checksum_method_book_photos_of(): number;
    uniffi_farsiding_bindings_checksum_method_book_photos_waiting(): number;
    uniffi_farsiding_bindings_checksum_method_book_preview(): number;
    uniffi_farsiding_bindings_checksum_method_book_record_step(): number;
    uniffi_farsiding_bindings_checksum_method_book_release(): number;
    uniffi_farsiding_bindings_checksum_method_book_set_draft(): number;
    uniffi_farsiding_bindings_checksum_method_book_settle(): number;
    uniffi_farsiding_bindings_checksum_method_book_show(): number;
    uniffi_farsiding_bindings_checksum_method_book_sites(): number;
    uniffi_farsiding_bindings_checksum_method_book_standing(): number;
    uniffi_farsiding_bindings_checksum_method_book_status(): number;
    uniffi_farsiding_bindings_checksum_method_book_sync_receive(): number;
    uniffi_farsiding_bindings_checksum_method_book_sync_request(): number;
    uniffi_farsiding_bindings_checksum_method_book_sync_start(): number;
    uniffi_farsiding_bindings_checksum_method_book_unlock_person(): number;
    uniffi_farsiding_bindings_checksum_method_book_visit(): number;
    uniffi_farsiding_bindings_checksum_method_book_visits(): number;
    uniffi_farsiding_bindings_checksum_method_book_withdraw(): number;
    // Codegen call sites use these via `nativeModule().rustbuffer_alloc(...)`
    // and `nativeModule().rustbuffer_free(...)`. The runtime's registered
    // module exposes them as method properties.
    rustbuffer_alloc(n: number): Uint8Array;
    rustbuffer_free(view: Uint8Array): void;
}
let _nativeModule: NativeModuleInterface | undefined;
const getter: () => NativeModuleInterface = () => {
  if (!_nativeModule) {
    throw new Error(
      "farsiding_bindings: wasm module not initialised. Await " +
      "`uniffiInitAsync(...)` from the generated entrypoint before calling " +
      "into this module.",
    );
  }
  return _nativeModule;
};
export const PLAYER_DEFINITIONS = DEFINITIONS;
// Takes the runtime's loose record — `registerSync` cannot know this
// module's exports — and narrows it once, here, rather than at each call.
export function setNativeModule(m: Record<string, (...args: any[]) => any>) {
  _nativeModule = m as unknown as NativeModuleInterface;
}
export default getter;

// Structs and function types for calling back into Typescript from Rust.
export type UniffiRustFutureContinuationCallback = (data: bigint, pollResult: number) => void;
export type UniffiForeignFutureDroppedCallback = (handle: bigint) => void;
export type UniffiForeignFutureDroppedCallbackStruct = {
  handle: bigint;
  free: UniffiForeignFutureDroppedCallback;
};

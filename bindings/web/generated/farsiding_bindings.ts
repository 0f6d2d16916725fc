// @generated from the Rust API by bindings/generate. Do not edit.
/* tslint:disable */
/* eslint-disable */
// @ts-nocheck
import nativeModule from "./farsiding_bindings-ffi";
import { type UniffiRustFutureContinuationCallback, type UniffiForeignFutureDroppedCallback, type UniffiForeignFutureDroppedCallbackStruct,
} from "./farsiding_bindings-ffi";
import { type FfiConverter, type UniffiByteArray, type UniffiGcObject, type UniffiHandle, type UniffiObjectFactory, AbstractFfiConverterByteArray, Cursor, FfiConverterArray, FfiConverterBool, FfiConverterFloat64, FfiConverterInt64, FfiConverterObject, FfiConverterOptional, FfiConverterUInt32, FfiConverterUInt64, FfiConverterUInt8, FfiConverterUint8Array, RustBuffer, UniffiAbstractObject, UniffiError, UniffiInternalError, UniffiRustCaller, destructorGuardSymbol, pointerLiteralSymbol, uniffiCreateFfiConverterString, uniffiCreateRecord, uniffiRustCallAsync, uniffiTypeNameSymbol, variantOrdinalSymbol,
} from "@ubjs/core";
const uniffiCaller = new UniffiRustCaller(() => ({ code: 0 }));

const uniffiIsDebug =
  // @ts-ignore -- The process global might not be defined
  typeof process !== "object" ||
  // @ts-ignore -- The process global might not be defined
  process?.env?.NODE_ENV !== "production" ||
  false;

// Public interface members begin here.

/**
 * Computes one formula. `formula` is its name, `line` one JSON object with its inputs, as `farsiding calc`
 * takes it: `calculate("ctl", "{\"temp_f\": 80, \"rd60\": 0.51}")`. `formulas` lists names, inputs, units
 * and ranges. Every number's key may be followed by the same key with `_pm`: its ± at 95 %, in the same
 * unit.
 *
 * Returns one JSON object: `{ok: true, value, unit, plus_minus, formula, source, findings, …}` with
 * `plus_minus` at 95 % in the unit of `value`, or `{ok: false, error, message}`. Never fails: what is wrong
 * with the line is said there.
 */
export function calculate(formula: string, line: string): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_calculate(
        FfiConverterString.lower(formula, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(line, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The version of the core as `major.minor.patch`, for an about page and for support. Never fails.
 */
export function coreVersion(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_core_version(
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Every formula, as a JSON list of `{name, about, unit, inputs, method, source, wrong_when}`. An input of
 * the kind `number` is `{key, about, kind, name, unit, low, high, presumed_half_width, required, default?}`:
 * `low` and `high` are its range in `unit`. Never fails.
 */
export function formulas(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_formulas(
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * A new secret of 32 random bytes: a device's key for `Book::open`, or the secret for `keep_beside`. The
 * caller keeps it where the platform keeps secrets. Whoever loses a device's key cannot open its book as
 * that device again.
 *
 * # Errors
 * - `NoStorage`: the platform has no randomness.
 */
export function newKey(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_new_key(
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Returns where `pin` may be chosen as a PIN: six decimal digits, not one digit or one pair or triple over
 * and over, and no run up or down.
 *
 * # Errors
 * - `WeakPin`: the PIN is none of these; `why` says which rule it broke.
 */
export function pinMayBeChosen(pin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * The key of 32 bytes that a shell seals its storage under, where a PIN opens the phone. It is derived by
 * Argon2id with 64 MiB and three passes, which takes about a second.
 *
 * `pin` has six decimal digits, `beside` is the secret of 32 bytes that `keep_beside` takes, and `salt` has
 * 16 random bytes that are kept with what is sealed.
 *
 * # Errors
 * - `WeakPin`: the PIN has not six digits.
 * - `WrongCall`: `beside` has not 32 bytes, or `salt` has not 16.
 */
export function pinStorageKey(pin: string, beside: Uint8Array, salt: Uint8Array): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_pin_storage_key(
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(beside, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(salt, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Makes `folder` ready for books. Wait for it before `Book::open`; calling it again changes nothing.
 *
 * Natively `folder` is a path, and the folder is made with those above it. In a browser `folder` is a folder
 * of the origin's private file system; the call must be made in a dedicated worker and takes hold of that
 * folder, which one worker at a time can do.
 *
 * # Errors
 * - `NoStorage`: the folder cannot be made, or the browser keeps nothing durable (a private window).
 * - `OpenElsewhere`: another tab holds the folder (browsers only).
 * - `NotStored`: the browser gives no more room (browsers only).
 */
export async function prepareStorage(folder: string, asyncOpts_?: { signal: AbortSignal }): Promise<void> /*throws*/ {
    return await uniffiRustCallAsync(
            /*rustCaller:*/ uniffiCaller,
            /*rustFutureFunc:*/ () => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_prepare_storage(FfiConverterString.lower(folder, nativeModule().rustbuffer_alloc)
                );
            },
            /*pollFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_poll_void,
            /*cancelFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_cancel_void,
            /*completeFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_complete_void,
            /*freeFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_free_void,
            /*liftFunc:*/ (_v) => {},
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
            /*asyncOpts:*/ asyncOpts_,
            /*errorHandler:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError)
        );
    }

/**
 * Reads a text that somebody typed where an amount in `unit` is asked for. A text that is no amount is no
 * error: the answer says so, and the text is kept.
 *
 * `unit` is a unit's symbol, such as `psi` (gauge), `psia`, `°F`, `gal`, `lb`, `in` or `%`. Where the text
 * names another unit of the same kind, that unit is taken: `8 bar` for `psi`. `decimal_mark` is `.` or `,`,
 * the mark that is usual where the text was typed. Without it a text that says two things (`32,650`,
 * `1.234`) is answered with both.
 *
 * # Errors
 * - `WrongCall`: `unit` is no symbol that the core knows (`why` lists all), or `decimal_mark` is another
 * mark.
 */
export function readAmount(text: string, unit: string, decimalMark: string | undefined): ReadAmount /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_read_amount(
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(unit, nativeModule().rustbuffer_alloc),
        FfiConverterOptionalString.lower(decimalMark, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterTypeReadAmount.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

const stringConverter = (() => {
    const encoder = new TextEncoder();
    const decoder = new TextDecoder();
    return {
        stringToBytes: (s: string) => encoder.encode(s),
        bytesToString: (ab: UniffiByteArray) => decoder.decode(ab),
        stringByteLength: (s: string) => encoder.encode(s).byteLength,
        writeStringIntoBuffer: (s: string, buf: any, offset: number): number => {
            const view = new Uint8Array(
                buf.arrayBuffer,
                offset,
                buf.arrayBuffer.byteLength - offset,
            );
            return encoder.encodeInto(s, view).written;
        },
        readStringFromBuffer: (buf: any, offset: number, length: number): string =>
            decoder.decode(new Uint8Array(buf.arrayBuffer, offset, length)),
    };
})();
const FfiConverterString = uniffiCreateFfiConverterString(stringConverter);

/**
 * One reading of a text that somebody typed as an amount.
 */
export type AmountReading = {
    /**
     * The amount as it goes into a statement, as JSON: `{text, unit, value}`. Its text is exactly what was
     * typed.
     */
    amount: string,
    /**
     * The number, in `unit`. It is finite and within what that unit can measure at all.
     */
    value: number,
    /**
     * The unit's symbol: the one in the text, or else the one that was asked for.
     */
    unit: string,
    /**
     * The number with its unit, for people: `32650 gal`.
     */
    shown: string
}

/**
 * Generated factory for {@link AmountReading} record objects.
 */
export const AmountReading = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<AmountReading, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<AmountReading>,
    });
})();

const FfiConverterTypeAmountReading = (() => {
    type TypeName = AmountReading;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                amount: FfiConverterString.readFromCursor(c),
                value: FfiConverterFloat64.readFromCursor(c),
                unit: FfiConverterString.readFromCursor(c),
                shown: FfiConverterString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.amount, c);
            FfiConverterFloat64.writeIntoCursor(value.value, c);
            FfiConverterString.writeIntoCursor(value.unit, c);
            FfiConverterString.writeIntoCursor(value.shown, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.amount) +
             FfiConverterFloat64.allocationSize(value.value) +
             FfiConverterString.allocationSize(value.unit) +
             FfiConverterString.allocationSize(value.shown);

        }
    };
    return new FFIConverter();
})();

/**
 * A photograph's exact bytes out of a carry file.
 */
export type Picture = {
    /**
     * Media type, such as `image/jpeg`.
     */
    media: string,
    /**
     * The bytes.
     */
    bytes: Uint8Array
}

/**
 * Generated factory for {@link Picture} record objects.
 */
export const Picture = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<Picture, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<Picture>,
    });
})();

const FfiConverterTypePicture = (() => {
    type TypeName = Picture;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                media: FfiConverterString.readFromCursor(c),
                bytes: FfiConverterUint8Array.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.media, c);
            FfiConverterUint8Array.writeIntoCursor(value.bytes, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.media) +
             FfiConverterUint8Array.allocationSize(value.bytes);

        }
    };
    return new FFIConverter();
})();

/**
 * What a typed text can mean: one amount, or two to choose from, or none and why.
 */
export type ReadAmount = {
    /**
     * Exactly what was typed.
     */
    text: string,
    /**
     * The readings, at most two. There is one where the text says one thing; two, first with decimals and
     * then with thousands, where only whoever typed the text knows; none where the text is no amount.
     */
    readings: Array<AmountReading>,
    /**
     * Why the text is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`,
     * `two_readings`, `cannot_be` (no instrument shows such a number), `other_kind` (the unit measures
     * something else). Empty where the text is one amount.
     */
    refused: string,
    /**
     * The same in an English sentence, and in the browser, which has words of its own, the stable name
     * again; empty where the text is one amount.
     */
    why: string
}

/**
 * Generated factory for {@link ReadAmount} record objects.
 */
export const ReadAmount = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<ReadAmount, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<ReadAmount>,
    });
})();

const FfiConverterTypeReadAmount = (() => {
    type TypeName = ReadAmount;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                text: FfiConverterString.readFromCursor(c),
                readings: FfiConverterSequenceTypeAmountReading.readFromCursor(c),
                refused: FfiConverterString.readFromCursor(c),
                why: FfiConverterString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.text, c);
            FfiConverterSequenceTypeAmountReading.writeIntoCursor(value.readings, c);
            FfiConverterString.writeIntoCursor(value.refused, c);
            FfiConverterString.writeIntoCursor(value.why, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.text) +
             FfiConverterSequenceTypeAmountReading.allocationSize(value.readings) +
             FfiConverterString.allocationSize(value.refused) +
             FfiConverterString.allocationSize(value.why);

        }
    };
    return new FFIConverter();
})();


// Error type: FarsidingError
export enum FarsidingError_Tags {
    OpenElsewhere = "OpenElsewhere",
    NoStorage = "NoStorage",
    NotStored = "NotStored",
    Refused = "Refused",
    NotTheOffice = "NotTheOffice",
    NotEnrolled = "NotEnrolled",
    WeakPin = "WeakPin",
    WrongPin = "WrongPin",
    PinWaits = "PinWaits",
    KeyLocked = "KeyLocked",
    KeyEnded = "KeyEnded",
    NoKey = "NoKey",
    HasKey = "HasKey",
    WrongCall = "WrongCall"
}
/**
 * What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
 * was lost.
 *
 * Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
 * call, never the only thing shown.
 */
export const FarsidingError = (() => {

    type OpenElsewhere__interface = {
        tag: FarsidingError_Tags.OpenElsewhere;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * Another tab, window or program holds the book. Use that one, or close it and try again.
     */
    class OpenElsewhere_ extends UniffiError implements OpenElsewhere__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.OpenElsewhere;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "OpenElsewhere");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): OpenElsewhere_ {
            return new OpenElsewhere_(inner);
        }

        static instanceOf(obj: any): obj is OpenElsewhere_ {
            return obj.tag === FarsidingError_Tags.OpenElsewhere;
        }
        static hasInner(obj: any): obj is OpenElsewhere_ {
            return OpenElsewhere_.instanceOf(obj);
        }

        static getInner(obj: OpenElsewhere_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type NoStorage__interface = {
        tag: FarsidingError_Tags.NoStorage;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * This place cannot keep records: a private window, no such folder, no permission. Use another place.
     */
    class NoStorage_ extends UniffiError implements NoStorage__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.NoStorage;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "NoStorage");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): NoStorage_ {
            return new NoStorage_(inner);
        }

        static instanceOf(obj: any): obj is NoStorage_ {
            return obj.tag === FarsidingError_Tags.NoStorage;
        }
        static hasInner(obj: any): obj is NoStorage_ {
            return NoStorage_.instanceOf(obj);
        }

        static getInner(obj: NoStorage_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type NotStored__interface = {
        tag: FarsidingError_Tags.NotStored;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The disk failed or is full, and the entries that this call was to make were not made. Free some space,
     * then make the call again.
     */
    class NotStored_ extends UniffiError implements NotStored__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.NotStored;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "NotStored");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): NotStored_ {
            return new NotStored_(inner);
        }

        static instanceOf(obj: any): obj is NotStored_ {
            return obj.tag === FarsidingError_Tags.NotStored;
        }
        static hasInner(obj: any): obj is NotStored_ {
            return NotStored_.instanceOf(obj);
        }

        static getInner(obj: NotStored_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type Refused__interface = {
        tag: FarsidingError_Tags.Refused;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * What was handed over breaks a rule, or is not what it claims to be, and was refused whole. Show the
     * reason; the same call would be refused again.
     */
    class Refused_ extends UniffiError implements Refused__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.Refused;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "Refused");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): Refused_ {
            return new Refused_(inner);
        }

        static instanceOf(obj: any): obj is Refused_ {
            return obj.tag === FarsidingError_Tags.Refused;
        }
        static hasInner(obj: any): obj is Refused_ {
            return Refused_.instanceOf(obj);
        }

        static getInner(obj: Refused_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type NotTheOffice__interface = {
        tag: FarsidingError_Tags.NotTheOffice;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * What answered is not the office's server: a login page in between, or another address. Try again
     * later, with another network.
     */
    class NotTheOffice_ extends UniffiError implements NotTheOffice__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.NotTheOffice;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "NotTheOffice");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): NotTheOffice_ {
            return new NotTheOffice_(inner);
        }

        static instanceOf(obj: any): obj is NotTheOffice_ {
            return obj.tag === FarsidingError_Tags.NotTheOffice;
        }
        static hasInner(obj: any): obj is NotTheOffice_ {
            return NotTheOffice_.instanceOf(obj);
        }

        static getInner(obj: NotTheOffice_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type NotEnrolled__interface = {
        tag: FarsidingError_Tags.NotEnrolled;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * No office has enrolled this device yet. Records are kept, and nothing is sent: enrol the device first.
     */
    class NotEnrolled_ extends UniffiError implements NotEnrolled__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.NotEnrolled;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "NotEnrolled");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): NotEnrolled_ {
            return new NotEnrolled_(inner);
        }

        static instanceOf(obj: any): obj is NotEnrolled_ {
            return obj.tag === FarsidingError_Tags.NotEnrolled;
        }
        static hasInner(obj: any): obj is NotEnrolled_ {
            return NotEnrolled_.instanceOf(obj);
        }

        static getInner(obj: NotEnrolled_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type WeakPin__interface = {
        tag: FarsidingError_Tags.WeakPin;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The PIN is not six digits, or is among the first that anybody tries. Ask for another one.
     */
    class WeakPin_ extends UniffiError implements WeakPin__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.WeakPin;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "WeakPin");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): WeakPin_ {
            return new WeakPin_(inner);
        }

        static instanceOf(obj: any): obj is WeakPin_ {
            return obj.tag === FarsidingError_Tags.WeakPin;
        }
        static hasInner(obj: any): obj is WeakPin_ {
            return WeakPin_.instanceOf(obj);
        }

        static getInner(obj: WeakPin_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type WrongPin__interface = {
        tag: FarsidingError_Tags.WrongPin;
        inner:
Readonly<{why: string; says: string; left: number}>
    };
    /**
     * The PIN was wrong. Ask again and say how many tries are left, or let the person say that it is
     * forgotten.
     */
    class WrongPin_ extends UniffiError implements WrongPin__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.WrongPin;
        readonly inner:
Readonly<{why: string; says: string; left: number}>;
        constructor(
inner: {why: string; says: string; left: number }) {
            super("FarsidingError", "WrongPin");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string; left: number }): WrongPin_ {
            return new WrongPin_(inner);
        }

        static instanceOf(obj: any): obj is WrongPin_ {
            return obj.tag === FarsidingError_Tags.WrongPin;
        }
        static hasInner(obj: any): obj is WrongPin_ {
            return WrongPin_.instanceOf(obj);
        }

        static getInner(obj: WrongPin_):
Readonly<{why: string; says: string; left: number}> {
            return obj.inner;
        }

    }

    type PinWaits__interface = {
        tag: FarsidingError_Tags.PinWaits;
        inner:
Readonly<{why: string; says: string; until: bigint}>
    };
    /**
     * Too many wrong PINs were tried, and this try was not made. Wait until the time given.
     */
    class PinWaits_ extends UniffiError implements PinWaits__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.PinWaits;
        readonly inner:
Readonly<{why: string; says: string; until: bigint}>;
        constructor(
inner: {why: string; says: string; until: bigint }) {
            super("FarsidingError", "PinWaits");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string; until: bigint }): PinWaits_ {
            return new PinWaits_(inner);
        }

        static instanceOf(obj: any): obj is PinWaits_ {
            return obj.tag === FarsidingError_Tags.PinWaits;
        }
        static hasInner(obj: any): obj is PinWaits_ {
            return PinWaits_.instanceOf(obj);
        }

        static getInner(obj: PinWaits_):
Readonly<{why: string; says: string; until: bigint}> {
            return obj.inner;
        }

    }

    type KeyLocked__interface = {
        tag: FarsidingError_Tags.KeyLocked;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * Ten wrong PINs were tried, and the key is gone from this device. Tell the office, then make a new key.
     */
    class KeyLocked_ extends UniffiError implements KeyLocked__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.KeyLocked;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "KeyLocked");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): KeyLocked_ {
            return new KeyLocked_(inner);
        }

        static instanceOf(obj: any): obj is KeyLocked_ {
            return obj.tag === FarsidingError_Tags.KeyLocked;
        }
        static hasInner(obj: any): obj is KeyLocked_ {
            return KeyLocked_.instanceOf(obj);
        }

        static getInner(obj: KeyLocked_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type KeyEnded__interface = {
        tag: FarsidingError_Tags.KeyEnded;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The office ended the key. Make a new one.
     */
    class KeyEnded_ extends UniffiError implements KeyEnded__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.KeyEnded;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "KeyEnded");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): KeyEnded_ {
            return new KeyEnded_(inner);
        }

        static instanceOf(obj: any): obj is KeyEnded_ {
            return obj.tag === FarsidingError_Tags.KeyEnded;
        }
        static hasInner(obj: any): obj is KeyEnded_ {
            return KeyEnded_.instanceOf(obj);
        }

        static getInner(obj: KeyEnded_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type NoKey__interface = {
        tag: FarsidingError_Tags.NoKey;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The person has no key on this device. Make one, or go on without: the device alone then names the
     * person.
     */
    class NoKey_ extends UniffiError implements NoKey__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.NoKey;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "NoKey");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): NoKey_ {
            return new NoKey_(inner);
        }

        static instanceOf(obj: any): obj is NoKey_ {
            return obj.tag === FarsidingError_Tags.NoKey;
        }
        static hasInner(obj: any): obj is NoKey_ {
            return NoKey_.instanceOf(obj);
        }

        static getInner(obj: NoKey_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type HasKey__interface = {
        tag: FarsidingError_Tags.HasKey;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The person has a key on this device already. Unlock it, or drop it where its PIN is forgotten.
     */
    class HasKey_ extends UniffiError implements HasKey__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.HasKey;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "HasKey");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): HasKey_ {
            return new HasKey_(inner);
        }

        static instanceOf(obj: any): obj is HasKey_ {
            return obj.tag === FarsidingError_Tags.HasKey;
        }
        static hasInner(obj: any): obj is HasKey_ {
            return HasKey_.instanceOf(obj);
        }

        static getInner(obj: HasKey_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    type WrongCall__interface = {
        tag: FarsidingError_Tags.WrongCall;
        inner:
Readonly<{why: string; says: string}>
    };
    /**
     * The calling program made a mistake, such as a key of the wrong length. Mend the program.
     */
    class WrongCall_ extends UniffiError implements WrongCall__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "FarsidingError";
        readonly tag = FarsidingError_Tags.WrongCall;
        readonly inner:
Readonly<{why: string; says: string}>;
        constructor(
inner: {why: string; says: string }) {
            super("FarsidingError", "WrongCall");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; says: string }): WrongCall_ {
            return new WrongCall_(inner);
        }

        static instanceOf(obj: any): obj is WrongCall_ {
            return obj.tag === FarsidingError_Tags.WrongCall;
        }
        static hasInner(obj: any): obj is WrongCall_ {
            return WrongCall_.instanceOf(obj);
        }

        static getInner(obj: WrongCall_):
Readonly<{why: string; says: string}> {
            return obj.inner;
        }

    }

    function instanceOf(obj: any): obj is FarsidingError {
        return obj[uniffiTypeNameSymbol] === "FarsidingError";
    }

    return Object.freeze({
        instanceOf,
  OpenElsewhere: OpenElsewhere_,
  NoStorage: NoStorage_,
  NotStored: NotStored_,
  Refused: Refused_,
  NotTheOffice: NotTheOffice_,
  NotEnrolled: NotEnrolled_,
  WeakPin: WeakPin_,
  WrongPin: WrongPin_,
  PinWaits: PinWaits_,
  KeyLocked: KeyLocked_,
  KeyEnded: KeyEnded_,
  NoKey: NoKey_,
  HasKey: HasKey_,
  WrongCall: WrongCall_
    });

})();
/**
 * What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
 * was lost.
 *
 * Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
 * call, never the only thing shown.
 */
export type FarsidingError = InstanceType<
    typeof FarsidingError['OpenElsewhere' | 'NoStorage' | 'NotStored' | 'Refused' | 'NotTheOffice' | 'NotEnrolled' | 'WeakPin' | 'WrongPin' | 'PinWaits' | 'KeyLocked' | 'KeyEnded' | 'NoKey' | 'HasKey' | 'WrongCall']
>;

// FfiConverter for enum FarsidingError
const FfiConverterTypeFarsidingError = (() => {
    type TypeName = FarsidingError;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            switch (c.readI32()) {
                case 1: return new FarsidingError.OpenElsewhere({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 2: return new FarsidingError.NoStorage({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 3: return new FarsidingError.NotStored({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 4: return new FarsidingError.Refused({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 5: return new FarsidingError.NotTheOffice({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 6: return new FarsidingError.NotEnrolled({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 7: return new FarsidingError.WeakPin({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 8: return new FarsidingError.WrongPin({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c), left: FfiConverterUInt32.readFromCursor(c) });
                case 9: return new FarsidingError.PinWaits({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c), until: FfiConverterInt64.readFromCursor(c) });
                case 10: return new FarsidingError.KeyLocked({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 11: return new FarsidingError.KeyEnded({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 12: return new FarsidingError.NoKey({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 13: return new FarsidingError.HasKey({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                case 14: return new FarsidingError.WrongCall({why: FfiConverterString.readFromCursor(c), says: FfiConverterString.readFromCursor(c) });
                default: throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            switch (value.tag) {
                case FarsidingError_Tags.OpenElsewhere: {
                    c.writeI32(1);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.NoStorage: {
                    c.writeI32(2);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.NotStored: {
                    c.writeI32(3);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.Refused: {
                    c.writeI32(4);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.NotTheOffice: {
                    c.writeI32(5);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.NotEnrolled: {
                    c.writeI32(6);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.WeakPin: {
                    c.writeI32(7);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.WrongPin: {
                    c.writeI32(8);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    FfiConverterUInt32.writeIntoCursor(inner.left, c);
                    return;
                }
                case FarsidingError_Tags.PinWaits: {
                    c.writeI32(9);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    FfiConverterInt64.writeIntoCursor(inner.until, c);
                    return;
                }
                case FarsidingError_Tags.KeyLocked: {
                    c.writeI32(10);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.KeyEnded: {
                    c.writeI32(11);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.NoKey: {
                    c.writeI32(12);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.HasKey: {
                    c.writeI32(13);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                case FarsidingError_Tags.WrongCall: {
                    c.writeI32(14);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterString.writeIntoCursor(inner.says, c);
                    return;
                }
                default:
                    // Throwing from here means that FarsidingError_Tags hasn't matched an ordinal.
                    throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
        allocationSize(value: TypeName): number {
            switch (value.tag) {
                case FarsidingError_Tags.OpenElsewhere: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.NoStorage: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.NotStored: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.Refused: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.NotTheOffice: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.NotEnrolled: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.WeakPin: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.WrongPin: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    size += FfiConverterUInt32.allocationSize(inner.left);
                    return size;
                }
                case FarsidingError_Tags.PinWaits: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    size += FfiConverterInt64.allocationSize(inner.until);
                    return size;
                }
                case FarsidingError_Tags.KeyLocked: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.KeyEnded: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.NoKey: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.HasKey: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                case FarsidingError_Tags.WrongCall: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterString.allocationSize(inner.says);
                    return size;
                }
                default: throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
    }
    return new FFIConverter();
})();

/**
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
 */
export interface BookLike {

/**
 * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
 * 64 hexadecimal digits each. They are signed and on the disk when this returns.
 *
 * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
 * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
 * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
 * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
 * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
 * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
 * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
 * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
 *
 * # Errors
 * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
 * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
 * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    append(subject: string, drafts: string, operator: string) /*throws*/: Array<string>;
/**
 * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
 * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
 * named the person. `drafts` are as for `append`.
 *
 * # Errors
 * - `WrongCall`: `drafts` is other JSON.
 */
    binds(drafts: string) /*throws*/: boolean;
/**
 * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
 * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
 */
    carriedPhoto(): Picture | undefined;
/**
 * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
 * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
 * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
 * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
 * the file. Taking one file in twice changes nothing.
 *
 * # Errors
 * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
 * unpacked. Nothing was taken in.
 * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
 */
    carryIn(file: Uint8Array) /*throws*/: string;
/**
 * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
 * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
 * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
 * digits; one that is not here is left out.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read.
 * - `NotStored`: the disk cannot be read.
 * - `Refused`: the file could not be encoded.
 */
    carryOut(visits: Array<string>) /*throws*/: Uint8Array;
/**
 * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
 * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
 * (50331648 bytes).
 *
 * # Errors
 * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
 * - `NotStored`: the disk cannot be read.
 */
    carryPhoto(bytes: Uint8Array) /*throws*/: void;
/**
 * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
 * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
 *
 * # Errors
 * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
 * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
 */
    changePin(person: string, oldPin: string, newPin: string) /*throws*/: void;
/**
 * This device's id: its public key, 64 hexadecimal digits. Never fails.
 */
    device(): string;
/**
 * Every text that `set_draft` keeps, as a JSON object from key to text.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    drafts() /*throws*/: string;
/**
 * The body of the request that enrols this device: signed by the device's key, with a one-time code from
 * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
 *
 * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
 * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
 * in the office's link before the code leaves this device. `name` is what the office calls this device.
 *
 * # Errors
 * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
 * - `Refused`: the request could not be encoded.
 */
    enrolRequest(code: string, name: string, organisationKey: string, serverTime: bigint) /*throws*/: Uint8Array;
/**
 * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
 * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
 * `key_statements`, call `enrolled_with` instead.
 *
 * # Errors
 * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
 * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
 * kept.
 * - `NotStored`: the disk failed or is full.
 */
    enrolled(organisationKey: string, certificate: Uint8Array) /*throws*/: void;
/**
 * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
 * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
 * `key_statements`, in their order.
 *
 * # Errors
 * As `enrolled`.
 */
    enrolledWith(organisationKey: string, keyStatements: Array<Uint8Array>, certificate: Uint8Array) /*throws*/: void;
/**
 * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
 * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
 * to case. The list is empty when `text` has neither.
 *
 * # Errors
 * None today.
 */
    find(text: string) /*throws*/: string;
/**
 * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
 * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
 * that a car is safe: a person decides and signs.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
 * procedure has no such gate, or this device may not sign it.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    fitToUnload(visit: string, operator: string) /*throws*/: Array<string>;
/**
 * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
 * office ends it in the roster, and the person makes a new one with `make_person_key`.
 *
 * # Errors
 * - `NoKey`: the person has no key on this device.
 * - `NotStored`: the disk failed or is full. The key is then still here.
 */
    forgetPersonKey(person: string) /*throws*/: void;
/**
 * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
 * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
 * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
 * memory only.
 *
 * # Errors
 * - `WrongCall`: the secret has not 32 bytes.
 */
    keepBeside(secret: Uint8Array) /*throws*/: void;
/**
 * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
 */
    lockPeople(): void;
/**
 * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
 * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
 * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
 * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
 * sync goes on, and `status` keeps it.
 *
 * # Errors
 * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
 * called again.
 * - `WrongCall`: the log was not asked for.
 * - `NotStored`: the disk failed or is full.
 */
    logReceive(reply: Uint8Array) /*throws*/: string;
/**
 * The body of the next request about the office's log, for after a sync: send it with `POST` to the
 * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
 * Call this again when `log_receive` says that it is not done, or when a reply got lost.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    logRequest() /*throws*/: Uint8Array | undefined;
/**
 * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
 * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
 * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
 *
 * # Errors
 * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
 * - `HasKey`: the person has a key on this device already.
 * - `NotEnrolled`: no office has enrolled this device.
 * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
 * - `Refused`: `person` is no code, or this device may not say so.
 * - `NotStored`: the disk failed or is full. No key was made.
 */
    makePersonKey(person: string, pin: string) /*throws*/: string;
/**
 * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
 * is recorded. Never fails.
 */
    newSite(): string;
/**
 * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
 * visit is on the disk when this returns.
 *
 * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
 * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
 * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
 * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
 * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
 * of the person who begins the visit: 1 to 64 printable characters, no
 * blank at its ends.
 *
 * # Errors
 * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
 * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
 * would be larger than 32 KiB, or this device may not begin visits at that site.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    openVisit(opening: string, operator: string) /*throws*/: string;
/**
 * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
 * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
 * many are returned at most; both are counts from 0 to 4294967295.
 *
 * # Errors
 * None today.
 */
    over(from: number, most: number) /*throws*/: string;
/**
 * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
 * the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
 * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
 * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
 * `visit` and `operator` are as for `settle`.
 *
 * # Errors
 * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
 * device.
 * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
 * device may not override.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    overrideItems(visit: string, gate: string, items: Array<string>, reason: string, operator: string) /*throws*/: Array<string>;
/**
 * Passes over one thing that speaks against release, with a reason that the record shows for ever.
 * Returns the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
 * as free text, required. `visit` and `operator` are as for `settle`.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
 * not pass over.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    passOver(visit: string, blocker: string, why: string, operator: string) /*throws*/: Array<string>;
/**
 * The body of the signed request for a pass, which lets this device send photographs to the office and
 * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    passRequest() /*throws*/: Uint8Array;
/**
 * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
 * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
 * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
 * one. `trained_on` is a date `YYYY-MM-DD`.
 *
 * # Errors
 * None today.
 */
    people() /*throws*/: string;
/**
 * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
 * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
 * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
 *
 * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
 * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
 * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
 * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
 * the device is enrolled, and `keep_beside` was called.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    peopleHere() /*throws*/: string;
/**
 * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
 * as JSON: `{sha256, length, media}`.
 *
 * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
 * is the media type, such as `image/jpeg`.
 *
 * # Errors
 * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
 * - `NotStored`: the disk failed or is full.
 */
    photoTaken(sha256: string, length: bigint, media: string) /*throws*/: string;
/**
 * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
 * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
 * `visits` are ids of 32 hexadecimal digits.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read.
 * - `NotStored`: the disk cannot be read.
 */
    photosOf(visits: Array<string>) /*throws*/: string;
/**
 * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
 * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
 * sending them shortens the list.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    photosWaiting() /*throws*/: string;
/**
 * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
 * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
 *
 * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
 *
 * # Errors
 * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: as `append` would refuse.
 * - `NotStored`: the disk cannot be read.
 */
    preview(visit: string, drafts: string, operator: string) /*throws*/: string;
/**
 * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
 * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
 *
 * `step` is the step's id in the procedure, with its fitting where the step repeats:
 * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
 * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
 * `operator` are as for `append`, and `drafts` may be `[]`.
 *
 * # Errors
 * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
 * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    recordStep(visit: string, step: string, outcome: string, note: string, drafts: string, operator: string) /*throws*/: Array<string>;
/**
 * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
 * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
 * or this device may not release.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    release(visit: string, asResidue: boolean, operator: string) /*throws*/: Array<string>;
/**
 * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
 * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
 * this device.
 *
 * # Errors
 * - `NotStored`: the disk failed or is full.
 */
    setDraft(key: string, text: string) /*throws*/: void;
/**
 * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
 * id of the settlement in a list of one: 64 hexadecimal digits.
 *
 * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
 * text, required. `operator` is as for `append`.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    settle(visit: string, keeps: string, why: string, operator: string) /*throws*/: Array<string>;
/**
 * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
 *
 * # Errors
 * - `WrongCall`: the id cannot be read, or the visit is not on this device.
 */
    show(visit: string) /*throws*/: string;
/**
 * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
 * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
 * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
 * level with its unit, or null.
 *
 * # Errors
 * None today.
 */
    sites() /*throws*/: string;
/**
 * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
 * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
 * first.
 *
 * # Errors
 * None today.
 */
    standing() /*throws*/: string;
/**
 * How this device stands, as a JSON object:
 * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
 * null. 64 hexadecimal digits each.
 * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
 * receipt for.
 * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
 * things from outside were refused and kept aside.
 * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
 * when never compared.
 * - `damaged`: the ids of entries whose rows on the disk are damaged.
 * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
 * entries}]`, with the site's id and two counts.
 * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
 * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
 * - `version`: the version of the core.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    status() /*throws*/: string;
/**
 * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
 * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
 *
 * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
 * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
 * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
 * takes some things later, or null. `revoked` says that the office has revoked this device.
 * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
 * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
 * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
 * that left with them, whose bytes are the caller's to delete.
 *
 * # Errors
 * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
 * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
 * - `WrongCall`: no sync was begun.
 * - `NotStored`: the disk failed or is full.
 * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
 * again next time.
 */
    syncReceive(reply: Uint8Array) /*throws*/: string;
/**
 * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
 * got lost.
 *
 * # Errors
 * - `WrongCall`: no sync was begun, or the last one is done.
 * - `NotStored`: the disk cannot be read.
 */
    syncRequest() /*throws*/: Uint8Array;
/**
 * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
 * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
 * broken off is forgotten; what it brought is kept.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    syncStart() /*throws*/: void;
/**
 * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
 * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
 * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
 * they are made.
 *
 * # Errors
 * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
 * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
 * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
 * - `KeyEnded`: the office ended the key.
 * - `NoKey`: the person has no key on this device.
 * - `WeakPin`: the PIN has not six digits; no try was counted.
 * - `WrongCall`: `keep_beside` was not called.
 * - `Refused`: what was kept of the key is damaged.
 * - `NotStored`: the disk failed or is full.
 */
    unlockPerson(person: string, pin: string) /*throws*/: void;
/**
 * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
 * seals, photographs, disagreements, blockers, findings, and the history as sentences.
 *
 * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
 * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
 *
 * # Errors
 * - `WrongCall`: the id cannot be read, or the visit is not on this device.
 */
    visit(visit: string) /*throws*/: string;
/**
 * One row for each stay on this device, as a JSON list.
 *
 * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
 * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
 * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
 * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
 * `unreceipted` are counts.
 *
 * # Errors
 * None today.
 */
    visits() /*throws*/: string;
/**
 * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
 * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
 * the entry that is taken back.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
 * back.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    withdraw(visit: string, entry: string, why: string, operator: string) /*throws*/: Array<string>;
}
/**
 * @deprecated Use `BookLike` instead.
 */
export type BookInterface = BookLike;


/**
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
 */
export class Book extends UniffiAbstractObject implements BookLike {

    readonly [uniffiTypeNameSymbol] = "Book";
    readonly [destructorGuardSymbol]: UniffiGcObject;
    readonly [pointerLiteralSymbol]: UniffiHandle;
    // No primary constructor declared for this class.
private constructor(pointer: UniffiHandle) {
    super();
    this[pointerLiteralSymbol] = pointer;
    this[destructorGuardSymbol] = uniffiTypeBookObjectFactory.bless(pointer);
}


/**
 * Opens the book `name` in `folder`, or makes it when there is none. Call `prepare_storage(folder)`
 * first, and wait for it.
 *
 * `folder` is a path; in a browser it is a folder of the origin's private file system. `name` is the
 * name of one SQLite file in that folder: 1 to 200 bytes, without slashes. `key` is the device's secret
 * of exactly 32 bytes (Ed25519), made once with `new_key`. The same key must be given every time:
 * whoever opens the book with another key continues the records as another device. Opening reads and
 * checks every record, which takes longer as records grow.
 *
 * # Errors
 * - `WrongCall`: the key has not 32 bytes, or the name is empty, too long or has a slash.
 * - `NoStorage`: the folder cannot be used, for example because `prepare_storage` has not made it.
 * - `OpenElsewhere`: another program holds the file.
 * - `NotStored`: the disk failed or is full.
 * - `Refused`: a later version of this software wrote the file.
 */
    static open(folder: string, name: string, key: Uint8Array): BookLike /*throws*/ {
    return FfiConverterTypeBook.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_constructor_book_open(
        FfiConverterString.lower(folder, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(name, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(key, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }



/**
 * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
 * 64 hexadecimal digits each. They are signed and on the disk when this returns.
 *
 * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
 * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
 * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
 * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
 * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
 * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
 * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
 * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
 *
 * # Errors
 * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
 * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
 * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    append(subject: string, drafts: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_append(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(subject, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
 * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
 * named the person. `drafts` are as for `append`.
 *
 * # Errors
 * - `WrongCall`: `drafts` is other JSON.
 */
    binds(drafts: string): boolean /*throws*/ {
    return FfiConverterBool.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_binds(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }

/**
 * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
 * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
 */
    carriedPhoto(): Picture | undefined {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carried_photo(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterOptionalTypePicture.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
 * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
 * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
 * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
 * the file. Taking one file in twice changes nothing.
 *
 * # Errors
 * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
 * unpacked. Nothing was taken in.
 * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
 */
    carryIn(file: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_in(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(file, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
 * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
 * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
 * digits; one that is not here is left out.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read.
 * - `NotStored`: the disk cannot be read.
 * - `Refused`: the file could not be encoded.
 */
    carryOut(visits: Array<string>): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_out(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterSequenceString.lower(visits, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
 * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
 * (50331648 bytes).
 *
 * # Errors
 * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
 * - `NotStored`: the disk cannot be read.
 */
    carryPhoto(bytes: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_photo(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(bytes, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
 * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
 *
 * # Errors
 * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
 * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
 */
    changePin(person: string, oldPin: string, newPin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_change_pin(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(oldPin, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(newPin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * This device's id: its public key, 64 hexadecimal digits. Never fails.
 */
    device(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_device(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Every text that `set_draft` keeps, as a JSON object from key to text.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    drafts(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_drafts(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The body of the request that enrols this device: signed by the device's key, with a one-time code from
 * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
 *
 * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
 * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
 * in the office's link before the code leaves this device. `name` is what the office calls this device.
 *
 * # Errors
 * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
 * - `Refused`: the request could not be encoded.
 */
    enrolRequest(code: string, name: string, organisationKey: string, serverTime: bigint): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_enrol_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(code, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(name, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterInt64.lower(serverTime, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
 * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
 * `key_statements`, call `enrolled_with` instead.
 *
 * # Errors
 * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
 * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
 * kept.
 * - `NotStored`: the disk failed or is full.
 */
    enrolled(organisationKey: string, certificate: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_enrolled(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(certificate, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
 * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
 * `key_statements`, in their order.
 *
 * # Errors
 * As `enrolled`.
 */
    enrolledWith(organisationKey: string, keyStatements: Array<Uint8Array>, certificate: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_enrolled_with(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterSequenceBytes.lower(keyStatements, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(certificate, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
 * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
 * to case. The list is empty when `text` has neither.
 *
 * # Errors
 * None today.
 */
    find(text: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_find(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
 * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
 * that a car is safe: a person decides and signs.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
 * procedure has no such gate, or this device may not sign it.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    fitToUnload(visit: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_fit_to_unload(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
 * office ends it in the roster, and the person makes a new one with `make_person_key`.
 *
 * # Errors
 * - `NoKey`: the person has no key on this device.
 * - `NotStored`: the disk failed or is full. The key is then still here.
 */
    forgetPersonKey(person: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_forget_person_key(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
 * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
 * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
 * memory only.
 *
 * # Errors
 * - `WrongCall`: the secret has not 32 bytes.
 */
    keepBeside(secret: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_keep_beside(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(secret, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
 */
    lockPeople(): void {uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_lock_people(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
 * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
 * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
 * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
 * sync goes on, and `status` keeps it.
 *
 * # Errors
 * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
 * called again.
 * - `WrongCall`: the log was not asked for.
 * - `NotStored`: the disk failed or is full.
 */
    logReceive(reply: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_log_receive(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(reply, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The body of the next request about the office's log, for after a sync: send it with `POST` to the
 * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
 * Call this again when `log_receive` says that it is not done, or when a reply got lost.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    logRequest(): Uint8Array | undefined /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_log_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterOptionalBytes.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
 * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
 * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
 *
 * # Errors
 * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
 * - `HasKey`: the person has a key on this device already.
 * - `NotEnrolled`: no office has enrolled this device.
 * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
 * - `Refused`: `person` is no code, or this device may not say so.
 * - `NotStored`: the disk failed or is full. No key was made.
 */
    makePersonKey(person: string, pin: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_make_person_key(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
 * is recorded. Never fails.
 */
    newSite(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_new_site(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
 * visit is on the disk when this returns.
 *
 * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
 * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
 * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
 * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
 * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
 * of the person who begins the visit: 1 to 64 printable characters, no
 * blank at its ends.
 *
 * # Errors
 * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
 * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
 * would be larger than 32 KiB, or this device may not begin visits at that site.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    openVisit(opening: string, operator: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_open_visit(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(opening, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
 * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
 * many are returned at most; both are counts from 0 to 4294967295.
 *
 * # Errors
 * None today.
 */
    over(from: number, most: number): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_over(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUInt32.lower(from, nativeModule().rustbuffer_alloc),
        FfiConverterUInt32.lower(most, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
 * the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
 * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
 * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
 * `visit` and `operator` are as for `settle`.
 *
 * # Errors
 * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
 * device.
 * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
 * device may not override.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    overrideItems(visit: string, gate: string, items: Array<string>, reason: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_override_items(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(gate, nativeModule().rustbuffer_alloc),
        FfiConverterSequenceString.lower(items, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(reason, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Passes over one thing that speaks against release, with a reason that the record shows for ever.
 * Returns the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
 * as free text, required. `visit` and `operator` are as for `settle`.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
 * not pass over.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    passOver(visit: string, blocker: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_pass_over(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(blocker, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The body of the signed request for a pass, which lets this device send photographs to the office and
 * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    passRequest(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_pass_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
 * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
 * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
 * one. `trained_on` is a date `YYYY-MM-DD`.
 *
 * # Errors
 * None today.
 */
    people(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_people(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
 * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
 * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
 *
 * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
 * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
 * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
 * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
 * the device is enrolled, and `keep_beside` was called.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    peopleHere(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_people_here(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
 * as JSON: `{sha256, length, media}`.
 *
 * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
 * is the media type, such as `image/jpeg`.
 *
 * # Errors
 * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
 * - `NotStored`: the disk failed or is full.
 */
    photoTaken(sha256: string, length: bigint, media: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photo_taken(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(sha256, nativeModule().rustbuffer_alloc),
        FfiConverterUInt64.lower(length, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(media, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
 * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
 * `visits` are ids of 32 hexadecimal digits.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read.
 * - `NotStored`: the disk cannot be read.
 */
    photosOf(visits: Array<string>): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photos_of(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterSequenceString.lower(visits, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
 * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
 * sending them shortens the list.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    photosWaiting(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photos_waiting(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
 * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
 *
 * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
 *
 * # Errors
 * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: as `append` would refuse.
 * - `NotStored`: the disk cannot be read.
 */
    preview(visit: string, drafts: string, operator: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_preview(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
 * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
 *
 * `step` is the step's id in the procedure, with its fitting where the step repeats:
 * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
 * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
 * `operator` are as for `append`, and `drafts` may be `[]`.
 *
 * # Errors
 * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
 * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    recordStep(visit: string, step: string, outcome: string, note: string, drafts: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_record_step(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(step, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(outcome, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(note, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
 *
 * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
 * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
 *
 * # Errors
 * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
 * or this device may not release.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    release(visit: string, asResidue: boolean, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_release(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterBool.lower(asResidue, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
 * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
 * this device.
 *
 * # Errors
 * - `NotStored`: the disk failed or is full.
 */
    setDraft(key: string, text: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_set_draft(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(key, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
 * id of the settlement in a list of one: 64 hexadecimal digits.
 *
 * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
 * text, required. `operator` is as for `append`.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    settle(visit: string, keeps: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_settle(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(keeps, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
 *
 * # Errors
 * - `WrongCall`: the id cannot be read, or the visit is not on this device.
 */
    show(visit: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_show(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
 * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
 * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
 * level with its unit, or null.
 *
 * # Errors
 * None today.
 */
    sites(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sites(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
 * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
 * first.
 *
 * # Errors
 * None today.
 */
    standing(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_standing(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * How this device stands, as a JSON object:
 * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
 * null. 64 hexadecimal digits each.
 * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
 * receipt for.
 * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
 * things from outside were refused and kept aside.
 * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
 * when never compared.
 * - `damaged`: the ids of entries whose rows on the disk are damaged.
 * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
 * entries}]`, with the site's id and two counts.
 * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
 * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
 * - `version`: the version of the core.
 *
 * # Errors
 * - `NotStored`: the disk cannot be read.
 */
    status(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_status(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
 * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
 *
 * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
 * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
 * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
 * takes some things later, or null. `revoked` says that the office has revoked this device.
 * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
 * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
 * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
 * that left with them, whose bytes are the caller's to delete.
 *
 * # Errors
 * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
 * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
 * - `WrongCall`: no sync was begun.
 * - `NotStored`: the disk failed or is full.
 * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
 * again next time.
 */
    syncReceive(reply: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_receive(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(reply, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
 * got lost.
 *
 * # Errors
 * - `WrongCall`: no sync was begun, or the last one is done.
 * - `NotStored`: the disk cannot be read.
 */
    syncRequest(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
 * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
 * broken off is forgotten; what it brought is kept.
 *
 * # Errors
 * - `NotEnrolled`: no office has enrolled this device.
 * - `NotStored`: the disk cannot be read.
 */
    syncStart(): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_start(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
 * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
 * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
 * they are made.
 *
 * # Errors
 * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
 * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
 * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
 * - `KeyEnded`: the office ended the key.
 * - `NoKey`: the person has no key on this device.
 * - `WeakPin`: the PIN has not six digits; no try was counted.
 * - `WrongCall`: `keep_beside` was not called.
 * - `Refused`: what was kept of the key is damaged.
 * - `NotStored`: the disk failed or is full.
 */
    unlockPerson(person: string, pin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_unlock_person(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
 * seals, photographs, disagreements, blockers, findings, and the history as sentences.
 *
 * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
 * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
 *
 * # Errors
 * - `WrongCall`: the id cannot be read, or the visit is not on this device.
 */
    visit(visit: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_visit(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * One row for each stay on this device, as a JSON list.
 *
 * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
 * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
 * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
 * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
 * `unreceipted` are counts.
 *
 * # Errors
 * None today.
 */
    visits(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_visits(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
 * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
 * the entry that is taken back.
 *
 * # Errors
 * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
 * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
 * back.
 * - `NotStored`: the disk failed or is full. Nothing was recorded.
 */
    withdraw(visit: string, entry: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeFarsidingError.lift.bind(FfiConverterTypeFarsidingError),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_withdraw(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(entry, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }


    uniffiDestroy(): void {
        const ptr = (this as any)[destructorGuardSymbol];
        if (ptr !== undefined) {
            const pointer = uniffiTypeBookObjectFactory.pointer(this);
            uniffiTypeBookObjectFactory.freePointer(pointer);
            uniffiTypeBookObjectFactory.unbless(ptr);
            delete (this as any)[destructorGuardSymbol];
        }
    }

    static instanceOf(obj_: any): obj_ is Book {
        return uniffiTypeBookObjectFactory.isConcreteType(obj_);
    }


}

const uniffiTypeBookObjectFactory: UniffiObjectFactory<BookLike> = (() => {

    /// <reference lib="es2021" />
    const registry = typeof FinalizationRegistry !== 'undefined' ? new FinalizationRegistry<UniffiHandle>((heldValue: UniffiHandle) => {
        uniffiTypeBookObjectFactory.freePointer(heldValue);
    }) : null;

    return {
    create(pointer: UniffiHandle): BookLike {
        const instance = Object.create(Book.prototype);
        instance[pointerLiteralSymbol] = pointer;
        instance[destructorGuardSymbol] = this.bless(pointer);
        instance[uniffiTypeNameSymbol] = "Book";
        return instance;
    },


    bless(p: UniffiHandle): UniffiGcObject {
        const ptr = {
            p, // make sure this object doesn't get optimized away.
            markDestroyed: () => undefined,
        };
        if (registry) {
            registry.register(ptr, p, ptr);
        }
        return ptr;
    },

    unbless(ptr_: UniffiGcObject) {
        if (registry) {
            registry.unregister(ptr_);
        }
    },

    pointer(obj_: BookLike): UniffiHandle {
        if ((obj_ as any)[destructorGuardSymbol] === undefined) {
            throw new UniffiInternalError.UnexpectedNullPointer();
        }
        return (obj_ as any)[pointerLiteralSymbol];
    },

    clonePointer(obj_: BookLike): UniffiHandle {
        const pointer = this.pointer(obj_);
        return uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => nativeModule().uniffi_farsiding_bindings_fn_clone_book(pointer, callStatus),
            /*liftString:*/ FfiConverterString.lift
        );
    },

    freePointer(pointer: UniffiHandle): void {
        uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => nativeModule().uniffi_farsiding_bindings_fn_free_book(pointer, callStatus),
            /*liftString:*/ FfiConverterString.lift
        );
    },

    isConcreteType(obj_: any): obj_ is BookLike {
        return obj_[destructorGuardSymbol] && obj_[uniffiTypeNameSymbol] === "Book";
    },
}})();
const FfiConverterTypeBook = new FfiConverterObject(uniffiTypeBookObjectFactory);

// FfiConverter for Array<AmountReading>
const FfiConverterSequenceTypeAmountReading = new FfiConverterArray(FfiConverterTypeAmountReading);

// FfiConverter for Array<string>
const FfiConverterSequenceString = new FfiConverterArray(FfiConverterString);

// FfiConverter for Picture | undefined
const FfiConverterOptionalTypePicture = new FfiConverterOptional(FfiConverterTypePicture);

// FfiConverter for Array<Uint8Array>
const FfiConverterSequenceBytes = new FfiConverterArray(FfiConverterUint8Array);

// FfiConverter for Uint8Array | undefined
const FfiConverterOptionalBytes = new FfiConverterOptional(FfiConverterUint8Array);

// FfiConverter for string | undefined
const FfiConverterOptionalString = new FfiConverterOptional(FfiConverterString);


/**
 * This should be called before anything else.
 *
 * It is likely that this is being done for you by the library's `index.ts`.
 *
 * It checks versions of uniffi between when the Rust scaffolding was generated
 * and when the bindings were generated.
 *
 * It also initializes the machinery to enable Rust to talk back to Javascript.
 */
function uniffiEnsureInitialized() {
    // Get the bindings contract version from our ComponentInterface
    const bindingsContractVersion = 30;
    // Get the scaffolding contract version by calling the into the dylib
    const scaffoldingContractVersion = nativeModule().ffi_farsiding_bindings_uniffi_contract_version();
    if (bindingsContractVersion !== scaffoldingContractVersion) {
        throw new UniffiInternalError.ContractVersionMismatch(scaffoldingContractVersion, bindingsContractVersion);
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_calculate() !== 12748) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_calculate");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_core_version() !== 30956) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_core_version");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_formulas() !== 56892) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_formulas");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_new_key() !== 16597) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_new_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() !== 56356) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_pin_storage_key() !== 29291) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_pin_storage_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_prepare_storage() !== 34496) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_prepare_storage");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_read_amount() !== 17718) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_read_amount");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_constructor_book_open() !== 10423) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_constructor_book_open");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_append() !== 19026) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_append");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_binds() !== 7415) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_binds");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carried_photo() !== 1338) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carried_photo");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_in() !== 60974) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_in");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_out() !== 62352) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_out");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_photo() !== 18568) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_photo");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_change_pin() !== 7098) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_change_pin");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_device() !== 27345) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_device");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_drafts() !== 57336) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_drafts");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrol_request() !== 4152) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrol_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrolled() !== 19958) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrolled");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrolled_with() !== 24574) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrolled_with");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_find() !== 23673) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_find");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_fit_to_unload() !== 9605) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_fit_to_unload");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_forget_person_key() !== 2692) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_forget_person_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_keep_beside() !== 5762) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_keep_beside");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_lock_people() !== 8337) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_lock_people");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_log_receive() !== 60625) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_log_receive");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_log_request() !== 54498) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_log_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_make_person_key() !== 30723) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_make_person_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_new_site() !== 29822) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_new_site");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_open_visit() !== 6418) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_open_visit");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_over() !== 58626) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_over");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_override_items() !== 54076) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_override_items");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_pass_over() !== 43011) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_pass_over");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_pass_request() !== 63888) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_pass_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_people() !== 50066) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_people");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_people_here() !== 15443) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_people_here");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photo_taken() !== 61104) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photo_taken");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photos_of() !== 21378) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photos_of");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photos_waiting() !== 19255) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photos_waiting");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_preview() !== 9245) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_preview");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_record_step() !== 26513) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_record_step");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_release() !== 4878) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_release");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_set_draft() !== 10070) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_set_draft");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_settle() !== 19825) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_settle");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_show() !== 38547) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_show");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sites() !== 9170) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sites");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_standing() !== 15573) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_standing");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_status() !== 58531) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_status");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_receive() !== 34293) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_receive");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_request() !== 1845) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_start() !== 4745) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_start");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_unlock_person() !== 22959) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_unlock_person");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_visit() !== 63855) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_visit");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_visits() !== 6735) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_visits");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_withdraw() !== 14647) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_withdraw");
    }

    }

export default Object.freeze({
  initialize: uniffiEnsureInitialized,
  converters: {
    FfiConverterTypeAmountReading,
    FfiConverterTypeBook,
    FfiConverterTypeFarsidingError,
    FfiConverterTypePicture,
    FfiConverterTypeReadAmount,
  }
});

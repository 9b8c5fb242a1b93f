import { constants, deflateRawSync, inflateRawSync } from 'node:zlib';
import type { Codec } from '../../xlsx';

/** Node's own zlib, several times as fast as script. */
export const nodeCodec: Codec = {
  inflate: (packed, size) => inflateRawSync(packed, { maxOutputLength: Math.max(1, size) }),
  deflate: (content) =>
    deflateRawSync(content, {
      level: content.length > 2 ** 22 ? constants.Z_BEST_SPEED : constants.Z_DEFAULT_COMPRESSION,
    }),
};

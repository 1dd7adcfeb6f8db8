/** An address of this machine that is not `localhost`: a server answers at it only if it listens to other machines as well. */
export const NOT_LOCALHOST = '127.0.0.2';

// What masstone takes of ml-matrix, from the script that plain.html loads before.
export const { CholeskyDecomposition, Matrix, SingularValueDecomposition } = globalThis.mlMatrix;
